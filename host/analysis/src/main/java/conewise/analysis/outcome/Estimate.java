package conewise.analysis.outcome;

/**
 * A value with the interval that holds the true one with a probability of about 95 %.
 *
 * @param value the best estimate, finite
 * @param interval the interval, which holds the value
 */
public record Estimate(double value, Interval interval) {

  private static final double COVERAGE_FACTOR = 1.96;

  public Estimate {
    if (!Double.isFinite(value) || !interval.contains(value)) {
      throw new IllegalArgumentException(
          "the estimate " + value + " must be finite and lie in its interval " + interval);
    }
  }

  /** An estimate whose interval reaches equally far to both sides, in the value's own unit. */
  public static Estimate within(double value, double halfWidth) {
    return new Estimate(value, new Interval(value - halfWidth, value + halfWidth));
  }

  /**
   * The same estimate in another unit, or as a ratio: value and interval times a positive factor.
   */
  public Estimate times(double factor) {
    return new Estimate(
        value * factor, new Interval(interval.low() * factor, interval.high() * factor));
  }

  /**
   * This over another positive estimate; the widths are added as independent relative ones (JCGM
   * 100, 5.1.6).
   */
  public Estimate over(Estimate divisor) {
    double ratio = value / divisor.value;
    return within(ratio, Math.abs(ratio) * Math.hypot(relativeWidth(), divisor.relativeWidth()));
  }

  /**
   * This times a factor that is 1 with a relative standard uncertainty; the widths are added as
   * independent relative ones (JCGM 100, 5.1.6), with a coverage factor of 1.96.
   */
  public Estimate scaledBy(double relativeUncertainty) {
    double arm = COVERAGE_FACTOR * relativeUncertainty * Math.abs(value);
    return new Estimate(
        value,
        new Interval(
            value - Math.hypot(value - interval.low(), arm),
            value + Math.hypot(interval.high() - value, arm)));
  }

  /** The larger of the interval's two arms over the value's size. */
  public double relativeWidth() {
    return Math.max(interval.high() - value, value - interval.low()) / Math.abs(value);
  }
}
