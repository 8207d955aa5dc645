package conewise.analysis.diagnosis;

import java.util.Arrays;
import java.util.Locale;
import java.util.Map;

/**
 * How often each kind of fault is met at one place where it can be (see {@link FaultKind#place}).
 *
 * @param byKind probabilities above 0, at most {@link #MOST}; kinds left out have their usual one.
 *     Those of all kinds together must stay below 1, so that a good box remains possible
 */
public record Rates(Map<FaultKind, Double> byKind) {
  /** The highest rate of one kind. */
  public static final double MOST = 0.5;

  /** The usual ones. */
  public static final Rates USUAL = new Rates(Map.of());

  public Rates {
    byKind = Map.copyOf(byKind);
    byKind.forEach(
        (kind, rate) -> {
          if (!(rate > 0 && rate <= MOST)) {
            throw new IllegalArgumentException(
                "the rate of "
                    + kind.id()
                    + " is "
                    + rate
                    + "; it must be above 0, at most "
                    + MOST);
          }
        });
    double sum = sum(byKind);
    if (!(sum < 1)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "the rates of all kinds come to %.4g together; they must stay below 1",
              sum));
    }
  }

  /**
   * What the rates of all kinds come to together.
   *
   * @param byKind rates by kind; kinds left out have their usual one
   */
  public static double sum(Map<FaultKind, Double> byKind) {
    return Arrays.stream(FaultKind.values())
        .mapToDouble(kind -> byKind.getOrDefault(kind, kind.usualRate()))
        .sum();
  }

  /** How often a kind of fault is met. */
  public double of(FaultKind kind) {
    return byKind.getOrDefault(kind, kind.usualRate());
  }
}
