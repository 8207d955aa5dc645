package conewise.analysis.learning;

import conewise.analysis.outcome.Interval;
import java.util.List;
import java.util.OptionalDouble;

/**
 * A figure of several boxes: all positive, so by their logarithms.
 *
 * @param words what it is, for people: "tuning of port"
 * @param unit blank for a pure number
 * @param boxes how many tell it
 * @param value their geometric mean
 * @param spread their relative standard deviation as measured
 * @param uncertainty relative standard uncertainty of one measured value, root mean square
 */
public record LearnedFigure(
    String words, String unit, int boxes, double value, double spread, double uncertainty) {
  /** What limits hold of all good boxes. */
  public static final double COVERAGE = 0.99;

  /** The confidence that they do. */
  public static final double CONFIDENCE = 0.95;

  /** The factor that holds {@link #COVERAGE} of a normal law whose deviation is known. */
  private static final double KNOWN = 2.5758;

  private static final double COVERAGE_FACTOR = 1.96;

  /** Narrower than anything that is built. */
  private static final double LEAST_SPREAD = 0.002;

  /** A value of one box. */
  record Reading(double value, double relativeUncertainty) {}

  static LearnedFigure of(FigureKind kind, List<Reading> readings) {
    int n = readings.size();
    double mean = readings.stream().mapToDouble(r -> Math.log(r.value())).average().orElseThrow();
    double squares =
        readings.stream().mapToDouble(r -> Math.pow(Math.log(r.value()) - mean, 2)).sum();
    double noise =
        readings.stream()
            .mapToDouble(r -> Math.pow(r.relativeUncertainty(), 2))
            .average()
            .orElseThrow();
    return new LearnedFigure(
        kind.words(),
        kind.unit(),
        n,
        Math.exp(mean),
        Math.sqrt(squares / (n - 1)),
        Math.sqrt(noise));
  }

  /** The factor of the tolerance interval that so many boxes give. */
  public static double factorOf(int boxes) {
    return ToleranceFactor.twoSided(boxes, COVERAGE, CONFIDENCE);
  }

  /**
   * The boxes' own relative standard deviation, the uncertainty of measuring taken off; empty where
   * that is as large as the whole spread.
   */
  public OptionalDouble ownSpread() {
    double square = spread * spread - uncertainty * uncertainty;
    return square > 0 ? OptionalDouble.of(Math.sqrt(square)) : OptionalDouble.empty();
  }

  /**
   * Within what good boxes are measured, and the guard band beside it that a judge takes off again
   * (JCGM 106): the mean by e to the plus and minus (k s + U), s as measured and U the uncertainty
   * of one value at 95 %.
   */
  public Interval limits() {
    double arm = factorOf(boxes) * spread + COVERAGE_FACTOR * uncertainty;
    return new Interval(value * Math.exp(-arm), value * Math.exp(arm));
  }

  /**
   * The standard deviation at which another box is expected: the own spread, widened as its factor
   * is by so few boxes, and the uncertainty of what was learned.
   */
  public double expectedSpread() {
    double own = ownSpread().orElse(0) * factorOf(boxes) / KNOWN;
    return Math.max(LEAST_SPREAD, Math.hypot(own, uncertainty));
  }
}
