package conewise.analysis.sampling;

/**
 * Equally spaced samples of one quantity on their true instants: sample k stands for {@code
 * firstInstantSeconds + k * intervalSeconds}.
 *
 * <p>The array is not copied: whoever builds a channel hands it over and no longer writes to it.
 *
 * @param values the samples, in the channel's unit (volt or ampere); all finite, at least one
 * @param firstInstantSeconds the instant of sample 0, any finite value
 * @param intervalSeconds the spacing, positive and finite
 * @param lowRail a sample at or below this was saturated; negative infinity when unknown
 * @param highRail a sample at or above this was saturated; positive infinity when unknown
 */
// A record with an array: captures are compared by nobody, and a copy of each would double their
// memory.
@SuppressWarnings("ArrayRecordComponent")
public record SampledChannel(
    double[] values,
    double firstInstantSeconds,
    double intervalSeconds,
    double lowRail,
    double highRail) {

  public SampledChannel {
    if (values.length == 0) {
      throw new IllegalArgumentException("a channel holds at least one sample; it had 0");
    }
    if (!(intervalSeconds > 0) || Double.isInfinite(intervalSeconds)) {
      throw new IllegalArgumentException(
          "the sample interval is " + intervalSeconds + " s; it must be positive and finite");
    }
    if (!Double.isFinite(firstInstantSeconds)) {
      throw new IllegalArgumentException(
          "the first instant is " + firstInstantSeconds + " s; it must be finite");
    }
    for (int k = 0; k < values.length; k++) {
      if (!Double.isFinite(values[k])) {
        throw new IllegalArgumentException(
            "sample " + k + " is " + values[k] + "; every sample must be finite");
      }
    }
    if (!(lowRail < highRail)) {
      throw new IllegalArgumentException(
          "the low rail " + lowRail + " must lie below the high rail " + highRail);
    }
  }

  /** A channel whose rails are not known. */
  public static SampledChannel of(
      double[] values, double firstInstantSeconds, double intervalSeconds) {
    return new SampledChannel(
        values,
        firstInstantSeconds,
        intervalSeconds,
        Double.NEGATIVE_INFINITY,
        Double.POSITIVE_INFINITY);
  }

  /** How many samples there are. */
  public int length() {
    return values.length;
  }

  /** How many samples stand at a rail or beyond. */
  public int saturatedCount() {
    int count = 0;
    for (double value : values) {
      if (value <= lowRail || value >= highRail) {
        count++;
      }
    }
    return count;
  }

  /** The time that the samples span, one interval a sample, in seconds. */
  public double durationSeconds() {
    return values.length * intervalSeconds;
  }
}
