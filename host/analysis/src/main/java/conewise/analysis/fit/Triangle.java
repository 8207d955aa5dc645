package conewise.analysis.fit;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;

/** The triangle L of I + B'B = L L', for some columns B. */
final class Triangle {
  private final double[][] lower;

  /**
   * Of columns.
   *
   * @param products of the columns, B'B; only entries at and below the diagonal are read
   */
  Triangle(double[][] products) {
    int size = products.length;
    if (size == 0) {
      lower = new double[0][];
      return;
    }
    double[][] matrix = new double[size][size];
    for (int k = 0; k < size; k++) {
      for (int l = 0; l <= k; l++) {
        matrix[k][l] = products[k][l];
        matrix[l][k] = products[k][l];
      }
      matrix[k][k]++;
    }
    lower = new CholeskyDecomposition(new Array2DRowRealMatrix(matrix, false)).getL().getData();
  }

  /** L^-1 times a vector, in place. */
  double[] solve(double[] vector) {
    for (int k = 0; k < vector.length; k++) {
      for (int l = 0; l < k; l++) {
        vector[k] -= lower[k][l] * vector[l];
      }
      vector[k] /= lower[k][k];
    }
    return vector;
  }

  /** (L + I)^-T times a vector, in place. */
  double[] solveRoot(double[] vector) {
    for (int k = vector.length - 1; k >= 0; k--) {
      for (int l = k + 1; l < vector.length; l++) {
        vector[k] -= lower[l][k] * vector[l];
      }
      vector[k] /= lower[k][k] + 1;
    }
    return vector;
  }

  /** The logarithm of the determinant of I + B'B. */
  double logDeterminant() {
    double sum = 0;
    for (int k = 0; k < lower.length; k++) {
      sum += 2 * Math.log(lower[k][k]);
    }
    return sum;
  }
}
