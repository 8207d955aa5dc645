package conewise.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;

/**
 * Finds the discrepancy that the residuals themselves speak for, by restricted maximum likelihood
 * (Patterson and Thompson, Biometrika 58, 1971): unlike the plain one it counts the freedom that
 * the fitted unknowns used up. Beforehand small discrepancies are held more likely than large ones.
 */
final class DiscrepancySearch {
  /** Means of the exponential distributions that are taken beforehand, for each part. */
  private static final double[] USUAL = {
    0.003, Discrepancy.USUAL.smooth(), Discrepancy.USUAL.suspension(), Discrepancy.USUAL.coil()
  };

  /** The coarse ladder of sizes, over the usual one. */
  private static final double[] LADDER = {0, 0.03, 0.1, 0.3, 1, 3, 10};

  private static final double FINE_RATIO = 1.35;
  private static final int FINE_STEPS = 2;
  private static final int COARSE_ROUNDS = 2;
  private static final double LEAST_GAIN = 1e-6;

  private final BoxProblem problem;
  private final List<ModelDrift> drifts;
  private final List<ErrorProducts> products;
  private final double[] priorGradient;
  private final double[] least;

  /**
   * At an optimum's coordinates, about which the model is taken as straight.
   *
   * @param least no part may be less
   */
  DiscrepancySearch(BoxProblem problem, double[] coordinates, Discrepancy least) {
    this.least = new double[] {least.scattered(), least.smooth(), least.suspension(), least.coil()};
    this.problem = problem;
    drifts = problem.sweeps().stream().map(sweep -> sweep.drift(coordinates)).toList();
    List<Columns> raw = problem.raw(coordinates);
    products = new ArrayList<>();
    for (int s = 0; s < raw.size(); s++) {
      products.add(
          new ErrorProducts(
              problem.sweeps().get(s), drifts.get(s), raw.get(s), problem.parameters()));
    }
    priorGradient = new double[problem.parameters()];
    for (int k = 0; k < priorGradient.length; k++) {
      priorGradient[k] =
          problem.offCentre(coordinates, k) / (problem.spread(k) * problem.spread(k));
    }
  }

  /**
   * The most likely discrepancy: along a coarse ladder of sizes, then a fine one about the best.
   */
  Discrepancy best() {
    double[] best = least.clone();
    double badness = badness(best);
    for (int round = 0; round < COARSE_ROUNDS; round++) {
      double before = badness;
      for (int part = 0; part < best.length; part++) {
        for (double step : LADDER) {
          badness = tryOne(best, part, step * USUAL[part], badness);
        }
      }
      if (badness == before) {
        break;
      }
    }
    return refined(discrepancy(best));
  }

  /** A discrepancy of the model as it is at the search's coordinates. */
  SharedErrors errors(Discrepancy discrepancy) {
    return new SharedErrors(discrepancy, drifts);
  }

  /** The most likely discrepancy near another. */
  Discrepancy refined(Discrepancy other) {
    double[] best = parts(other);
    double badness = badness(best);
    for (int part = 0; part < best.length; part++) {
      double from = best[part];
      for (int i = -FINE_STEPS; i <= FINE_STEPS && from > 0; i++) {
        badness = tryOne(best, part, from * Math.pow(FINE_RATIO, i), badness);
      }
    }
    return discrepancy(best);
  }

  /** Takes a size of one part where it is better; returns the better badness. */
  private double tryOne(double[] best, int part, double size, double badness) {
    double before = best[part];
    if (size < least[part]) {
      return badness;
    }
    best[part] = size;
    double other = badness(best);
    if (other < badness - LEAST_GAIN) {
      return other;
    }
    best[part] = before;
    return badness;
  }

  private static double[] parts(Discrepancy discrepancy) {
    return new double[] {
      discrepancy.scattered(), discrepancy.smooth(), discrepancy.suspension(), discrepancy.coil()
    };
  }

  private static Discrepancy discrepancy(double[] parts) {
    return new Discrepancy(parts[0], parts[1], parts[2], parts[3]);
  }

  /** Twice the negative logarithm of the restricted likelihood, but for a constant. */
  private double badness(double[] parts) {
    Discrepancy discrepancy = discrepancy(parts);
    int size = problem.parameters();
    double[][] information = new double[size][size];
    double[] gradient = priorGradient.clone();
    double sum = 0;
    for (int part = 0; part < parts.length; part++) {
      sum += 2 * parts[part] / USUAL[part];
    }
    for (ErrorProducts each : products) {
      sum += each.add(discrepancy, information, gradient);
    }
    for (int k = 0; k < size; k++) {
      information[k][k] += 1 / (problem.spread(k) * problem.spread(k)) + 1e-9;
    }
    try {
      CholeskyDecomposition cholesky =
          new CholeskyDecomposition(new Array2DRowRealMatrix(information, false), 1e-6, 1e-30);
      ArrayRealVector slope = new ArrayRealVector(gradient, false);
      return sum
          + Math.log(cholesky.getDeterminant())
          - slope.dotProduct(cholesky.getSolver().solve(slope));
    } catch (NonPositiveDefiniteMatrixException e) {
      return Double.POSITIVE_INFINITY;
    }
  }
}
