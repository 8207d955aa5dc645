package conewise.analysis.fit;

import java.util.Arrays;

/** Residuals of one sweep, and a column of slopes for each coordinate. */
final class Columns {
  private static final double[] NOTHING = {};

  private final double[] residuals;
  private final double[][] slopes;

  /** What products of columns are less by; see {@link #whitenProducts}. */
  private double[] residualsLess = NOTHING;

  private final double[][] slopesLess;

  Columns(int rows, int coordinates) {
    residuals = new double[rows];
    slopes = new double[coordinates][rows];
    slopesLess = new double[coordinates][];
    Arrays.fill(slopesLess, NOTHING);
  }

  double[] residuals() {
    return residuals;
  }

  double[][] slopes() {
    return slopes;
  }

  void whiten(SweepEquations sweep, Whitening filter) {
    sweep.whiten(filter, residuals);
    for (double[] column : slopes) {
      sweep.whiten(filter, column);
    }
  }

  /** Whitens what {@link #addInformation} and {@link #addGradient} give, at half the cost. */
  void whitenProducts(SweepEquations sweep, Whitening filter) {
    residualsLess = sweep.whitenSmooth(filter, residuals);
    for (int k = 0; k < slopes.length; k++) {
      slopesLess[k] = sweep.whitenSmooth(filter, slopes[k]);
    }
  }

  /** Writes residuals and, a row for each, slopes times a factor of their own, from a row on. */
  void write(double[] intoResiduals, double[][] intoSlopes, int first, double[] factors) {
    System.arraycopy(residuals, 0, intoResiduals, first, residuals.length);
    for (int i = 0; i < residuals.length; i++) {
      double[] row = intoSlopes[first + i];
      for (int k = 0; k < factors.length; k++) {
        row[k] = slopes[k][i] * factors[k];
      }
    }
  }

  /** Adds the products of slopes with one another, for the coordinates that fit in. */
  void addInformation(double[][] into) {
    for (int a = 0; a < into.length; a++) {
      for (int b = 0; b <= a; b++) {
        double product = dot(slopes[a], slopes[b]) - dot(slopesLess[a], slopesLess[b]);
        into[a][b] += product;
        if (a != b) {
          into[b][a] += product;
        }
      }
    }
  }

  /** Adds the products of slopes with residuals; returns the residuals' sum of squares. */
  double addGradient(double[] into) {
    for (int a = 0; a < into.length; a++) {
      into[a] += dot(slopes[a], residuals) - dot(slopesLess[a], residualsLess);
    }
    return dot(residuals, residuals) - dot(residualsLess, residualsLess);
  }

  /** The product of as many numbers as the first has. In four sums, which run side by side. */
  static double dot(double[] x, double[] y) {
    double sum0 = 0;
    double sum1 = 0;
    double sum2 = 0;
    double sum3 = 0;
    int i = 0;
    for (; i + 3 < x.length; i += 4) {
      sum0 += x[i] * y[i];
      sum1 += x[i + 1] * y[i + 1];
      sum2 += x[i + 2] * y[i + 2];
      sum3 += x[i + 3] * y[i + 3];
    }
    for (; i < x.length; i++) {
      sum0 += x[i] * y[i];
    }
    return sum0 + sum1 + (sum2 + sum3);
  }
}
