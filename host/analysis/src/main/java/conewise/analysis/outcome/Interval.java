package conewise.analysis.outcome;

/**
 * A closed range of values in a stated unit: an expanded uncertainty interval, or a pair of limits.
 * Either end may be infinite (no limit on that side).
 *
 * @param low the lower end
 * @param high the upper end, at least {@code low}
 */
public record Interval(double low, double high) {

  public Interval {
    if (!(low <= high)) {
      throw new IllegalArgumentException("the interval runs from " + low + " to " + high);
    }
  }

  /** Everything from a value upwards. */
  public static Interval atLeast(double low) {
    return new Interval(low, Double.POSITIVE_INFINITY);
  }

  /** Everything up to a value. */
  public static Interval atMost(double high) {
    return new Interval(Double.NEGATIVE_INFINITY, high);
  }

  /** True when the other interval lies wholly within this one, ends included. */
  public boolean contains(Interval other) {
    return low <= other.low && other.high <= high;
  }

  /** True when the two have no value in common. */
  public boolean isApartFrom(Interval other) {
    return other.high < low || high < other.low;
  }

  /** True when a value lies within, ends included. */
  public boolean contains(double value) {
    return low <= value && value <= high;
  }
}
