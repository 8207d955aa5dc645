package conewise.analysis.gauge;

/**
 * How the spread of readings divides, as standard deviations in the figure's unit.
 *
 * @param repeatability one operator reading one part again
 * @param reproducibility operators reading the same part, interaction with the parts included
 * @param parts between the parts themselves
 */
public record Spread(double repeatability, double reproducibility, double parts) {
  /**
   * Steps of a gauge that tell apart, 1.41 parts' spreads over its own: root 2 (common practice).
   */
  private static final double CATEGORY = 1.41;

  /** The gauge's own: repeatability and reproducibility together. */
  public double gauge() {
    return Math.hypot(repeatability, reproducibility);
  }

  /** Of all readings. */
  public double total() {
    return Math.hypot(gauge(), parts);
  }

  /** The gauge's own over the total, 0 to 1; NaN where nothing spreads. */
  public double shareOfTotal() {
    return gauge() / total();
  }

  /** Six of the gauge's own standard deviations over the width of a tolerance. */
  public double shareOfTolerance(double width) {
    if (!(width > 0)) {
      throw new IllegalArgumentException("the tolerance is " + width + " wide; it must be above 0");
    }
    return 6 * gauge() / width;
  }

  /** How many kinds of part the gauge tells apart, at least 1; the largest int where all. */
  public int kinds() {
    return Math.max(1, (int) (CATEGORY * parts / gauge()));
  }
}
