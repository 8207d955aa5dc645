package conewise.simulator.dynamics;

import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * The exponential of a square matrix by scaling, a Pade approximant of order 13 and squaring: N. J.
 * Higham, SIAM J. Matrix Anal. Appl. 26 (2005), 1179, algorithm 2.3 with its constants. The matrix
 * is balanced first (B. N. Parlett and C. Reinsch, Numer. Math. 13 (1969), 293, without
 * permutation), since pascals and metres meet in one matrix here.
 */
public final class MatrixExponential {
  private static final double THETA = 5.371920351148152;
  private static final double[] PADE = {
    64764752532480000.0,
    32382376266240000.0,
    7771770303897600.0,
    1187353796428800.0,
    129060195264000.0,
    10559470521600.0,
    670442572800.0,
    33522128640.0,
    1323241920.0,
    40840800.0,
    960960.0,
    16380.0,
    182.0,
    1.0
  };

  private MatrixExponential() {}

  /**
   * Returns e^M.
   *
   * @param matrix square, finite; not changed
   * @throws IllegalArgumentException if it is not square or not finite
   */
  public static double[][] of(double[][] matrix) {
    int n = matrix.length;
    Shapes.check("exponent", matrix, n, n);
    for (double[] row : matrix) {
      for (double value : row) {
        if (!Double.isFinite(value)) {
          throw new IllegalArgumentException("An exponent holds " + value + "; it must be finite.");
        }
      }
    }
    if (n == 0) {
      return new double[0][0];
    }
    double[] scale = balance(matrix);
    double[][] result = exponential(similar(matrix, scale, false)).getData();
    return similar(result, scale, true);
  }

  private static RealMatrix exponential(double[][] balanced) {
    RealMatrix matrix = MatrixUtils.createRealMatrix(balanced);
    double norm = matrix.getNorm();
    int squarings = norm > THETA ? Math.getExponent(norm / THETA) + 1 : 0;
    RealMatrix result = pade(matrix.scalarMultiply(Math.scalb(1.0, -squarings)));
    for (int k = 0; k < squarings; k++) {
      result = result.multiply(result);
    }
    return result;
  }

  private static RealMatrix pade(RealMatrix a) {
    RealMatrix one = MatrixUtils.createRealIdentityMatrix(a.getRowDimension());
    RealMatrix a2 = a.multiply(a);
    RealMatrix a4 = a2.multiply(a2);
    RealMatrix a6 = a4.multiply(a2);
    RealMatrix odd = a.multiply(a6.multiply(upper(9, a2, a4, a6)).add(lower(1, one, a2, a4, a6)));
    RealMatrix even = a6.multiply(upper(8, a2, a4, a6)).add(lower(0, one, a2, a4, a6));
    return new LUDecomposition(even.subtract(odd)).getSolver().solve(even.add(odd));
  }

  private static RealMatrix lower(
      int first, RealMatrix one, RealMatrix a2, RealMatrix a4, RealMatrix a6) {
    return one.scalarMultiply(PADE[first]).add(upper(first + 2, a2, a4, a6));
  }

  private static RealMatrix upper(int first, RealMatrix a2, RealMatrix a4, RealMatrix a6) {
    return a2.scalarMultiply(PADE[first])
        .add(a4.scalarMultiply(PADE[first + 2]))
        .add(a6.scalarMultiply(PADE[first + 4]));
  }

  /** Powers of two that bring the off-diagonal sums of each row and its column near each other. */
  private static double[] balance(double[][] matrix) {
    int n = matrix.length;
    double[] scale = new double[n];
    java.util.Arrays.fill(scale, 1);
    boolean changed = true;
    for (int round = 0; changed && round < 100; round++) {
      changed = false;
      for (int k = 0; k < n; k++) {
        double row = 0;
        double column = 0;
        for (int j = 0; j < n; j++) {
          if (j != k) {
            row += Math.abs(matrix[k][j]) * scale[j] / scale[k];
            column += Math.abs(matrix[j][k]) * scale[k] / scale[j];
          }
        }
        if (row > 0 && column > 0) {
          int shift = (int) Math.rint(0.5 * StrictMath.log(row / column) / StrictMath.log(2));
          scale[k] = Math.scalb(scale[k], shift);
          changed |= shift != 0;
        }
      }
    }
    return scale;
  }

  /** Returns S^-1 M S, or S M S^-1 for the way back. */
  private static double[][] similar(double[][] matrix, double[] scale, boolean back) {
    int n = matrix.length;
    double[][] result = new double[n][n];
    for (int row = 0; row < n; row++) {
      for (int col = 0; col < n; col++) {
        double factor = scale[col] / scale[row];
        result[row][col] = back ? matrix[row][col] / factor : matrix[row][col] * factor;
      }
    }
    return result;
  }
}
