package conewise.analysis.impedance;

import org.apache.commons.math3.complex.Complex;

/**
 * The covariance of an impedance's two parts, in ohm squared (JCGM 100, 5.2 and H.2).
 *
 * @param varianceResistance variance of R, not negative
 * @param varianceReactance variance of X, not negative
 * @param covariance covariance of R and X; its size is at most the geometric mean of the variances
 */
public record ImpedanceUncertainty(
    double varianceResistance, double varianceReactance, double covariance) {

  public ImpedanceUncertainty {
    if (!(varianceResistance >= 0) || !(varianceReactance >= 0)) {
      throw new IllegalArgumentException(
          "the variances are "
              + varianceResistance
              + " and "
              + varianceReactance
              + " ohm squared; neither may be negative");
    }
    double bound = Math.sqrt(varianceResistance * varianceReactance);
    if (!(Math.abs(covariance) <= bound * (1 + 1e-9))) {
      throw new IllegalArgumentException(
          "the covariance is " + covariance + " ohm squared; its size is at most " + bound);
    }
  }

  /** The same standard uncertainty for each part, uncorrelated. */
  public static ImpedanceUncertainty circular(double standardUncertaintyOhm) {
    double variance = standardUncertaintyOhm * standardUncertaintyOhm;
    return new ImpedanceUncertainty(variance, variance, 0);
  }

  /** That of a resistance read with direct current: its reactance is 0, exactly. */
  public static ImpedanceUncertainty ofResistance(double standardUncertaintyOhm) {
    return new ImpedanceUncertainty(standardUncertaintyOhm * standardUncertaintyOhm, 0, 0);
  }

  /** One number for both parts: the root mean square of their standard uncertainties, in ohm. */
  public double standardUncertaintyOhm() {
    return Math.sqrt((varianceResistance + varianceReactance) / 2);
  }

  /** The covariance after multiplying by a complex slope: (x, y) becomes (ax - by, bx + ay). */
  ImpedanceUncertainty through(Complex slope) {
    double a = slope.getReal();
    double b = slope.getImaginary();
    return RatioPropagation.propagate(
        new double[][] {{a, -b}, {b, a}},
        new double[][] {{varianceResistance, covariance}, {covariance, varianceReactance}});
  }

  /** The covariance of a sum of two independent quantities. */
  public ImpedanceUncertainty plus(ImpedanceUncertainty other) {
    return new ImpedanceUncertainty(
        varianceResistance + other.varianceResistance,
        varianceReactance + other.varianceReactance,
        covariance + other.covariance);
  }
}
