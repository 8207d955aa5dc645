package conewise.analysis.fit;

/**
 * A coordinate held between two limits by a logistic curve of a free parameter; both are 0 together
 * and run alike there.
 */
final class Limited {
  private static final double AT_LIMIT = 0.01;

  private final double low;
  private final double span;
  private final double offset;
  private final double steepness;

  Limited(double low, double high) {
    this.low = low;
    span = high - low;
    double share = -low / span;
    offset = Math.log(share / (1 - share));
    steepness = 1 / (span * share * (1 - share));
  }

  double coordinate(double free) {
    return low + span * share(free);
  }

  double slope(double free) {
    double share = share(free);
    return span * share * (1 - share) * steepness;
  }

  /** The free parameter of a coordinate; one at or beyond a limit is taken just inside. */
  double free(double coordinate) {
    double share = Math.min(1 - 1e-9, Math.max(1e-9, (coordinate - low) / span));
    return (Math.log(share / (1 - share)) - offset) / steepness;
  }

  /** True where a coordinate has run into a limit, or within a hundredth of the span of it. */
  boolean isAtLimit(double coordinate) {
    return coordinate < low + AT_LIMIT * span || coordinate > low + (1 - AT_LIMIT) * span;
  }

  private double share(double free) {
    return 1 / (1 + Math.exp(-(offset + steepness * free)));
  }
}
