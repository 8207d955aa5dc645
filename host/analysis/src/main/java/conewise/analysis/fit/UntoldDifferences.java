package conewise.analysis.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.random.HaltonSequenceGenerator;

/**
 * What like drivers' differences, which the terminals hardly tell, do to the figures that they do
 * tell. A curve goes with the square of such a difference, so a law that takes the model as
 * straight sees nothing of it.
 *
 * <p>The residuals are taken as quadratic in the differences and straight in all else. Differences
 * are then drawn from what is known of them, all else follows beside each draw, and each counts by
 * how well it fits. A figure's variance is, by the law of total variance, that of its value from
 * draw to draw and what is left within one.
 */
final class UntoldDifferences {
  private static final int DRAWS = 300;
  private static final double EDGE = 1e-6;

  /** What counts less is left out: it lies where a quadratic says nothing. */
  private static final double LEAST_WEIGHT = 1e-3;

  /** A difference is untold where this share or more of its variance beforehand is left. */
  private static final double UNTOLD = 0.5;

  private final BoxProblem problem;
  private final double[] best;
  private final int[] untold;
  private final int[] told;

  /** Of the differences: their covariance is this times its transpose. */
  private final RealMatrix root;

  /** Covariance of all else where the differences are known. */
  private final RealMatrix within;

  /** Coordinates of each draw that counts, and how much. */
  private final List<double[]> draws = new ArrayList<>();

  private final List<Double> weights = new ArrayList<>();

  /**
   * A figure where the differences may be any.
   *
   * @param mean of its value
   * @param deviation standard deviation about the mean
   */
  record Spread(double mean, double deviation) {}

  /** Of a fit that has such differences. */
  UntoldDifferences(BoxProblem problem, double[] best, RealMatrix covariance) {
    this.problem = problem;
    this.best = best;
    untold = untold(problem, covariance);
    told =
        IntStream.range(0, problem.parameters())
            .filter(k -> IntStream.of(untold).noneMatch(each -> each == k))
            .toArray();
    root = new CholeskyDecomposition(covariance.getSubMatrix(untold, untold)).getL();
    RealMatrix slopes = new Array2DRowRealMatrix(problem.slopes(best), false);
    slopes = slopes.getSubMatrix(all(slopes.getRowDimension()), told);
    DecompositionSolver solver =
        new CholeskyDecomposition(slopes.transpose().multiply(slopes)).getSolver();
    within = solver.getInverse();
    RealMatrix terms = terms();
    RealMatrix follow = solver.solve(slopes.transpose().multiply(terms)).scalarMultiply(-1);
    RealMatrix left = terms.add(slopes.multiply(follow));
    draw(follow, left.transpose().multiply(left));
  }

  /** True where a fit has any. */
  static boolean exist(BoxProblem problem, RealMatrix covariance) {
    return untold(problem, covariance).length > 0;
  }

  private static int[] untold(BoxProblem problem, RealMatrix covariance) {
    return IntStream.range(0, problem.unknowns().size())
        .filter(k -> problem.unknowns().get(k).inherent())
        .filter(k -> covariance.getEntry(k, k) > UNTOLD * problem.spread(k) * problem.spread(k))
        .toArray();
  }

  private static int[] all(int count) {
    return IntStream.range(0, count).toArray();
  }

  /** 1, each of some numbers, and their products two by two. */
  private static double[] products(double[] z) {
    double[] products = new double[1 + z.length + z.length * (z.length + 1) / 2];
    int at = 0;
    products[at++] = 1;
    for (double each : z) {
      products[at++] = each;
    }
    for (int k = 0; k < z.length; k++) {
      for (int l = 0; l <= k; l++) {
        products[at++] = z[k] * z[l];
      }
    }
    return products;
  }

  /** A column of residuals for each of {@link #products} of the differences' own coordinates. */
  private RealMatrix terms() {
    int count = untold.length;
    RealVector centre = residuals(new double[count]);
    RealVector[] straight = new RealVector[count];
    RealVector[] square = new RealVector[count];
    for (int k = 0; k < count; k++) {
      double[] up = new double[count];
      double[] down = new double[count];
      up[k] = 1;
      down[k] = -1;
      RealVector above = residuals(up);
      RealVector below = residuals(down);
      straight[k] = above.subtract(below).mapMultiply(0.5);
      square[k] = above.add(below).mapMultiply(0.5).subtract(centre);
    }
    RealMatrix terms =
        new Array2DRowRealMatrix(centre.getDimension(), products(new double[count]).length);
    int at = 0;
    terms.setColumnVector(at++, centre);
    for (RealVector each : straight) {
      terms.setColumnVector(at++, each);
    }
    for (int k = 0; k < count; k++) {
      for (int l = 0; l < k; l++) {
        double[] both = new double[count];
        both[k] = 1;
        both[l] = 1;
        terms.setColumnVector(
            at++,
            residuals(both)
                .subtract(centre)
                .subtract(straight[k])
                .subtract(straight[l])
                .subtract(square[k])
                .subtract(square[l]));
      }
      terms.setColumnVector(at++, square[k]);
    }
    return terms;
  }

  private RealVector residuals(double[] z) {
    return new ArrayRealVector(problem.residuals(moved(z)), false);
  }

  private double[] moved(double[] z) {
    double[] at = best.clone();
    double[] off = root.operate(z);
    for (int k = 0; k < untold.length; k++) {
      at[untold[k]] += off[k];
    }
    return at;
  }

  private void draw(RealMatrix follow, RealMatrix squares) {
    HaltonSequenceGenerator halton = new HaltonSequenceGenerator(untold.length);
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    double least = squares.getEntry(0, 0);
    for (int i = 0; i < DRAWS; i++) {
      double[] z = halton.nextVector();
      double size = 0;
      for (int k = 0; k < z.length; k++) {
        z[k] = normal.inverseCumulativeProbability(Math.min(1 - EDGE, Math.max(EDGE, z[k])));
        size += z[k] * z[k];
      }
      double[] products = products(z);
      RealVector these = new ArrayRealVector(products, false);
      double worse = squares.operate(these).dotProduct(these) - least;
      double[] at = moved(z);
      double[] rest = follow.operate(products);
      for (int k = 0; k < told.length; k++) {
        at[told[k]] += rest[k];
      }
      double weight = Math.exp(0.5 * (size - worse));
      if (weight > LEAST_WEIGHT) {
        draws.add(problem.held(at));
        weights.add(weight);
      }
    }
  }

  /**
   * A function of the coordinates.
   *
   * @param gradient its slopes at the best fit
   */
  Spread of(ToDoubleFunction<double[]> function, double[] gradient) {
    double all = 0;
    double sum = 0;
    double squares = 0;
    double centre = function.applyAsDouble(best);
    for (int i = 0; i < draws.size(); i++) {
      double weight = weights.get(i);
      double off = function.applyAsDouble(draws.get(i)) - centre;
      all += weight;
      sum += weight * off;
      squares += weight * off * off;
    }
    double mean = sum / all;
    RealVector slopes = new ArrayRealVector(told.length);
    for (int k = 0; k < told.length; k++) {
      slopes.setEntry(k, gradient[told[k]]);
    }
    double left = within.operate(slopes).dotProduct(slopes);
    double between = squares / all - mean * mean;
    return new Spread(centre + mean, Math.sqrt(Math.max(0, left) + Math.max(0, between)));
  }
}
