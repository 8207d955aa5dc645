package conewise.analysis.gauge;

import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.special.Erf;

/**
 * The range of n values of a normal distribution of standard deviation 1 (L. H. C. Tippett,
 * Biometrika 17, 1925).
 */
final class RangeFactor {
  private static final double FAR = 9;
  private static final int PIECES = 12;
  private static final GaussIntegrator RULE = new GaussIntegratorFactory().legendre(16, -1.0, 1.0);
  private static final double ROOT_2 = Math.sqrt(2);

  private RangeFactor() {}

  /**
   * Its mean, d2: the integral of 1 - F^n - (1 - F)^n over all numbers.
   *
   * @param n at least 2
   */
  static double mean(int n) {
    requireTwo(n);
    return integral(x -> 1 - Math.pow(below(x), n) - Math.pow(below(-x), n), -FAR, FAR);
  }

  /**
   * The root of its mean square, which is what the spread of n means is read by when there is one
   * range alone (A. J. Duncan, Quality Control and Industrial Statistics: d2* for one sample). The
   * mean square is the integral of 2 r P(range above r).
   *
   * @param n at least 2
   */
  static double rootMeanSquare(int n) {
    requireTwo(n);
    return Math.sqrt(integral(r -> 2 * r * (1 - within(r, n)), 0, 2 * FAR));
  }

  /** The probability that the range is at most r. */
  private static double within(double r, int n) {
    return integral(x -> n * density(x) * Math.pow(below(x + r) - below(x), n - 1), -FAR, FAR);
  }

  private static double density(double x) {
    return Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
  }

  private static double below(double x) {
    return Erf.erfc(-x / ROOT_2) / 2;
  }

  private static double integral(UnivariateFunction function, double from, double to) {
    double half = (to - from) / PIECES / 2;
    double sum = 0;
    for (int piece = 0; piece < PIECES; piece++) {
      double middle = from + (2 * piece + 1) * half;
      sum += half * RULE.integrate(x -> function.value(middle + half * x));
    }
    return sum;
  }

  private static void requireTwo(int n) {
    if (n < 2) {
      throw new IllegalArgumentException("a range is of at least 2 values, not " + n);
    }
  }
}
