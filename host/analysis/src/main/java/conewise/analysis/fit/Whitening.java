package conewise.analysis.fit;

/**
 * Turns all errors along a curve into independent ones of variance 1: those that {@link
 * SmoothErrors} takes out, and then the relaxations of suspension and coil, some dozen columns B
 * whose covariance with what is left is I + B B'. With I + B'B = L L' a square root of its inverse
 * is I - B (L + I)^-T L^-1 B' (A. Andrews, AIAA J. 6, 1968), and the inverse itself is I - Y'Y with
 * Y = L^-1 B'.
 */
final class Whitening {
  private final SmoothErrors smooth;
  private final double[][] relaxations;
  private final Triangle triangle;

  /**
   * The filter.
   *
   * @param logFrequency natural logarithms of the frequencies, rising
   * @param noise relative standard deviation of each point's own noise
   */
  Whitening(double[] logFrequency, double[] noise, ModelDrift drift, Discrepancy discrepancy) {
    smooth = new SmoothErrors(logFrequency, noise, discrepancy);
    relaxations = drift.columns(discrepancy);
    for (double[] column : relaxations) {
      smooth.apply(column);
    }
    triangle = new Triangle(products());
  }

  private double[][] products() {
    double[][] products = new double[relaxations.length][relaxations.length];
    for (int k = 0; k < products.length; k++) {
      for (int l = 0; l <= k; l++) {
        products[k][l] = Columns.dot(relaxations[k], relaxations[l]);
      }
    }
    return products;
  }

  /** The logarithm of the determinant of the covariance of all readings. */
  double logDeterminant() {
    return smooth.logDeterminant() + triangle.logDeterminant();
  }

  /** Whitens a column in place: real parts of all points, then imaginary parts. */
  void apply(double[] column) {
    double[] share = triangle.solveRoot(applySmooth(column));
    for (int k = 0; k < share.length; k++) {
      double[] relaxation = relaxations[k];
      for (int i = 0; i < relaxation.length; i++) {
        column[i] -= share[k] * relaxation[i];
      }
    }
  }

  /**
   * Takes the smooth errors alone out of a column, in place.
   *
   * @return Y times the column: products of whitened columns are those of the columns as they are
   *     then, less those of their Y
   */
  double[] applySmooth(double[] column) {
    smooth.apply(column);
    double[] y = new double[relaxations.length];
    for (int k = 0; k < y.length; k++) {
      y[k] = Columns.dot(relaxations[k], column);
    }
    return triangle.solve(y);
  }
}
