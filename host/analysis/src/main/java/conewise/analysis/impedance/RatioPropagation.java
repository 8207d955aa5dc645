package conewise.analysis.impedance;

import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/** The law of propagation of uncertainty (JCGM 100, eq. 13) for Z = V/I. */
final class RatioPropagation {

  private RatioPropagation() {}

  /**
   * Divides two phasors.
   *
   * @param covariance 4 by 4, of Re V, Im V, Re I, Im I
   */
  static ImpedancePoint point(
      double frequencyHz, Complex voltage, Complex current, double[][] covariance) {
    Complex z = voltage.divide(current);
    // dZ = dV/I - Z dI/I: multiplying by a + jb turns (x, y) into (ax - by, bx + ay).
    Complex byVoltage = current.reciprocal();
    Complex byCurrent = z.negate().multiply(byVoltage);
    double[][] slopes = {
      {
        byVoltage.getReal(),
        -byVoltage.getImaginary(),
        byCurrent.getReal(),
        -byCurrent.getImaginary()
      },
      {byVoltage.getImaginary(), byVoltage.getReal(), byCurrent.getImaginary(), byCurrent.getReal()}
    };
    return new ImpedancePoint(
        frequencyHz, z.getReal(), z.getImaginary(), Optional.of(propagate(slopes, covariance)));
  }

  /**
   * The covariance of R and X from that of any number of inputs.
   *
   * @param slopes 2 rows (R, X), a column for each input
   * @param covariance of the inputs, symmetric
   */
  static ImpedanceUncertainty propagate(double[][] slopes, double[][] covariance) {
    double rr = Math.max(0, quadratic(slopes[0], covariance, slopes[0]));
    double xx = Math.max(0, quadratic(slopes[1], covariance, slopes[1]));
    double rx = quadratic(slopes[0], covariance, slopes[1]);
    // Rounding may take the covariance a hair beyond what the variances allow.
    double bound = Math.sqrt(rr * xx);
    return new ImpedanceUncertainty(rr, xx, Math.max(-bound, Math.min(bound, rx)));
  }

  private static double quadratic(double[] left, double[][] matrix, double[] right) {
    double sum = 0;
    for (int i = 0; i < left.length; i++) {
      for (int j = 0; j < right.length; j++) {
        sum += left[i] * matrix[i][j] * right[j];
      }
    }
    return sum;
  }
}
