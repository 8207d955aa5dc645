package conewise.analysis.fit;

/** Residuals of one sweep, and a column of slopes for each coordinate. */
final class Columns {
  private final double[] residuals;
  private final double[][] slopes;

  Columns(int rows, int coordinates) {
    residuals = new double[rows];
    slopes = new double[coordinates][rows];
  }

  double[] residuals() {
    return residuals;
  }

  double[][] slopes() {
    return slopes;
  }

  /** A copy that may be whitened. */
  Columns copy() {
    Columns copy = new Columns(residuals.length, slopes.length);
    System.arraycopy(residuals, 0, copy.residuals, 0, residuals.length);
    for (int k = 0; k < slopes.length; k++) {
      System.arraycopy(slopes[k], 0, copy.slopes[k], 0, residuals.length);
    }
    return copy;
  }

  void whiten(SweepEquations sweep, Whitening filter) {
    sweep.whiten(filter, residuals);
    for (double[] column : slopes) {
      sweep.whiten(filter, column);
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
        double product = dot(slopes[a], slopes[b]);
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
      into[a] += dot(slopes[a], residuals);
    }
    return dot(residuals, residuals);
  }

  /** In four sums, which a processor forms side by side. */
  private static double dot(double[] x, double[] y) {
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
