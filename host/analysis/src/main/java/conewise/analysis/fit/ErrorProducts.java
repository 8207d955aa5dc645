package conewise.analysis.fit;

import java.util.Arrays;

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
    Triangle triangle = triangle(strengths);
    double[][] less = new double[parameters + 1][];
    for (int a = 0; a <= parameters; a++) {
      less[a] = triangle.solve(seen(strengths, a));
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
    return sum + triangle.logDeterminant() + logDeterminant;
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

  private Triangle triangle(double[] strengths) {
    double[][] scaled = new double[strengths.length][strengths.length];
    for (int k = 0; k < strengths.length; k++) {
      for (int l = 0; l <= k; l++) {
        scaled[k][l] =
            strengths[k] * strengths[l] * products[parameters + 1 + k][parameters + 1 + l];
      }
    }
    return new Triangle(scaled);
  }

  /** B' times a column. */
  private double[] seen(double[] strengths, int column) {
    double[] seen = new double[strengths.length];
    for (int k = 0; k < seen.length; k++) {
      seen[k] = strengths[k] * products[parameters + 1 + k][column];
    }
    return seen;
  }
}
