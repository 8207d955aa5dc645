package conewise.analysis.feature;

import org.apache.commons.math3.stat.StatUtils;

/**
 * How much neighbouring points of a curve jitter about any smooth course, found without knowing the
 * course.
 */
final class Ripple {
  private static final int STENCIL = 5;

  /** Median of |x| over the standard deviation of a normal variable (common practice). */
  private static final double MEDIAN_OVER_SIGMA = 0.6745;

  private Ripple() {}

  /**
   * The standard deviation of the jitter of y(x): the fourth divided difference of each five
   * neighbours, which any cubic leaves at zero, scaled to the jitter of one point; the median of
   * its size over the curve, so that a few sharp bends do not count.
   *
   * @param x rising places
   * @param y values at them
   * @return the standard deviation in the unit of y; 0 with fewer than five points
   */
  static double of(double[] x, double[] y) {
    int count = x.length - STENCIL + 1;
    if (count < 1) {
      return 0;
    }
    double[] sizes = new double[count];
    for (int start = 0; start < count; start++) {
      sizes[start] = Math.abs(scaledDifference(x, y, start));
    }
    return StatUtils.percentile(sizes, 50) / MEDIAN_OVER_SIGMA;
  }

  private static double scaledDifference(double[] x, double[] y, int start) {
    double sum = 0;
    double squares = 0;
    for (int i = start; i < start + STENCIL; i++) {
      double weight = 1;
      for (int j = start; j < start + STENCIL; j++) {
        weight /= i == j ? 1 : x[i] - x[j];
      }
      sum += weight * y[i];
      squares += weight * weight;
    }
    return sum / Math.sqrt(squares);
  }
}
