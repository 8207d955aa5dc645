package conewise.analysis.feature;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/** Zeros of real polynomials, coefficients lowest power first. */
final class PolynomialZeros {
  private PolynomialZeros() {}

  static double[] product(double[] a, double[] b) {
    double[] product = new double[a.length + b.length - 1];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < b.length; j++) {
        product[i + j] += a[i] * b[j];
      }
    }
    return product;
  }

  /**
   * The natural frequencies of the conjugate pairs of zeros, by the eigenvalues of the companion
   * matrix (common practice).
   *
   * @return |s| times the unit for each pair, rising; empty when there is no pair or the highest
   *     coefficient is 0
   */
  static double[] resonantHz(double[] polynomial, double unitHz) {
    int degree = polynomial.length - 1;
    if (degree == 2) {
      return quadratic(polynomial, unitHz);
    }
    double lead = polynomial[degree];
    RealMatrix companion = new Array2DRowRealMatrix(degree, degree);
    for (int i = 0; i < degree; i++) {
      double entry = -polynomial[i] / lead;
      if (!Double.isFinite(entry)) {
        return new double[0];
      }
      companion.setEntry(i, degree - 1, entry);
      if (i > 0) {
        companion.setEntry(i, i - 1, 1);
      }
    }
    EigenDecomposition eigen = new EigenDecomposition(companion);
    double[] real = eigen.getRealEigenvalues();
    double[] imaginary = eigen.getImagEigenvalues();
    double[] found = new double[degree];
    int count = 0;
    for (int i = 0; i < degree; i++) {
      if (imaginary[i] > 0) {
        found[count++] = Math.hypot(real[i], imaginary[i]) * unitHz;
      }
    }
    double[] rising = Arrays.copyOf(found, count);
    Arrays.sort(rising);
    return rising;
  }

  private static double[] quadratic(double[] p, double unitHz) {
    boolean pair = p[1] * p[1] < 4 * p[0] * p[2];
    return pair ? new double[] {Math.sqrt(p[0] / p[2]) * unitHz} : new double[0];
  }
}
