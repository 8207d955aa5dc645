package conewise.analysis.diagnosis;

import java.util.Map;

/**
 * How often each kind of fault is met at one place where it can be.
 *
 * @param byKind probabilities above 0, at most 0.5; kinds left out have their usual one
 */
public record Rates(Map<FaultKind, Double> byKind) {
  private static final double MOST = 0.5;

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
  }

  double of(FaultKind kind) {
    return byKind.getOrDefault(kind, kind.usualRate());
  }
}
