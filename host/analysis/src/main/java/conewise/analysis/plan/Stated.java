package conewise.analysis.plan;

/**
 * A figure of a plan, and how far built ones lie from it.
 *
 * @param value in the unit that its name says; finite, more than 0
 * @param spread relative standard deviation of built ones about it, e.g. 0.1; more than 0, at most
 *     3
 */
public record Stated(double value, double spread) {
  private static final double WIDEST = 3;

  public Stated {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          "a planned figure is " + value + "; it must be finite and more than 0");
    }
    if (!(spread > 0 && spread <= WIDEST)) {
      throw new IllegalArgumentException(
          "the spread of a planned figure is "
              + spread
              + "; it must be more than 0 and at most "
              + WIDEST);
    }
  }
}
