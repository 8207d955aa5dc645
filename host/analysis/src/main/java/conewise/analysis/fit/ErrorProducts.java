package conewise.analysis.fit;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;

/**
 * Products of a sweep's slopes and residuals with one another under one discrepancy after another.
 * What depends on noise and smooth errors alone is kept from one to the next, so that other
 * strengths of relaxations cost little.
 */
final class ErrorProducts {
  private final SweepEquations sweep;
  private final ModelDrift drift;
  private final int parameters;

  /** Slopes by each parameter, the residuals, relaxations of the suspension, then of the coil. */
  private final double[][] raw;

  private double scattered = Double.NaN;
  private double smooth = Double.NaN;
  private double logDeterminant;
  private double[][] products;

  ErrorProducts(SweepEquations sweep, ModelDrift drift, Columns columns, int parameters) {
    this.sweep = sweep;
    this.drift = drift;
    this.parameters = parameters;
    raw = new double[parameters + 1 + drift.suspension().length + drift.coil().length][];
    System.arraycopy(columns.slopes(), 0, raw, 0, parameters);
    raw[parameters] = columns.residuals();
    int at = parameters + 1;
    for (double[] column : drift.suspension()) {
      raw[at++] = Arrays.copyOf(column, sweep.rows());
    }
    for (double[] column : drift.coil()) {
      raw[at++] = Arrays.copyOf(column, sweep.rows());
    }
  }

  /**
   * Adds the products of whitened slopes, and those of slopes and residuals.
   *
   * @return the residuals' sum of squares and the logarithm of the errors' determinant
   */
  double add(Discrepancy discrepancy, double[][] information, double[] gradient) {
    takeSmoothErrors(discrepancy);
    double[] strengths = strengths(discrepancy);
    double[][] lower = lower(strengths);
    double[][] less = new double[parameters + 1][];
    for (int a = 0; a <= parameters; a++) {
      less[a] = solved(lower, strengths, a);
      for (int b = 0; b <= a; b++) {
        double product = products[a][b] - Columns.dot(less[a], less[b]);
        if (a < parameters) {
          information[a][b] += product;
          information[b][a] += a == b ? 0 : product;
        } else if (b < parameters) {
          gradient[b] += product;
        }
      }
    }
    double sum = products[parameters][parameters];
    sum -= Columns.dot(less[parameters], less[parameters]);
    for (int k = 0; k < lower.length; k++) {
      sum += 2 * Math.log(lower[k][k]);
    }
    return sum + logDeterminant;
  }

  private void takeSmoothErrors(Discrepancy discrepancy) {
    if (discrepancy.scattered() == scattered && discrepancy.smooth() == smooth) {
      return;
    }
    scattered = discrepancy.scattered();
    smooth = discrepancy.smooth();
    SmoothErrors errors = sweep.smoothErrors(discrepancy);
    logDeterminant = errors.logDeterminant() + sweep.dcLogDeterminant();
    double[][] white = new double[raw.length][];
    products = new double[raw.length][raw.length];
    for (int a = 0; a < raw.length; a++) {
      white[a] = raw[a].clone();
      sweep.whiten(errors, white[a]);
      for (int b = 0; b <= a; b++) {
        products[a][b] = Columns.dot(white[a], white[b]);
      }
    }
  }

  private double[] strengths(Discrepancy discrepancy) {
    double[] strengths = new double[raw.length - parameters - 1];
    int springs = drift.suspension().length;
    Arrays.fill(strengths, 0, springs, discrepancy.suspension());
    Arrays.fill(strengths, springs, strengths.length, discrepancy.coil());
    return strengths;
  }

  /** L of I + B'B = L L'. */
  private double[][] lower(double[] strengths) {
    int size = strengths.length;
    if (size == 0) {
      return new double[0][];
    }
    double[][] matrix = new double[size][size];
    for (int k = 0; k < size; k++) {
      for (int l = 0; l <= k; l++) {
        double product =
            strengths[k] * strengths[l] * products[parameters + 1 + k][parameters + 1 + l];
        matrix[k][l] = product;
        matrix[l][k] = product;
      }
      matrix[k][k]++;
    }
    return new CholeskyDecomposition(new Array2DRowRealMatrix(matrix, false)).getL().getData();
  }

  /** L^-1 B' times a column. */
  private double[] solved(double[][] lower, double[] strengths, int column) {
    double[] y = new double[strengths.length];
    for (int k = 0; k < y.length; k++) {
      y[k] = strengths[k] * products[parameters + 1 + k][column];
      for (int l = 0; l < k; l++) {
        y[k] -= lower[k][l] * y[l];
      }
      y[k] /= lower[k][k];
    }
    return y;
  }
}
