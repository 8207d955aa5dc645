package conewise.analysis.fit;

import conewise.analysis.outcome.Outcome;
import java.util.Locale;
import org.apache.commons.math3.exception.MathIllegalNumberException;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;

/**
 * Nonlinear least squares with given slopes (Levenberg 1944, Marquardt 1963, as More 1978 built it;
 * the library's).
 */
public final class LeastSquares {
  /** A sum of squares to be made small. */
  public interface Problem {
    /** How many residuals there are. */
    int rows();

    /**
     * Writes the residuals and their slopes.
     *
     * @param parameters where
     * @param residuals receives {@link #rows} numbers
     * @param slopes receives, a row for each residual, its slope by each parameter
     */
    void evaluate(double[] parameters, double[] residuals, double[][] slopes);
  }

  /** Where a sum of squares is least. */
  public static final class Solution {
    private final double[] parameters;
    private final double sumOfSquares;

    Solution(double[] parameters, double sumOfSquares) {
      this.parameters = parameters;
      this.sumOfSquares = sumOfSquares;
    }

    /** Where the sum of squares is least, in the order of the start; a copy. */
    public double[] parameters() {
      return parameters.clone();
    }

    /** The sum of the squared residuals there. */
    public double sumOfSquares() {
      return sumOfSquares;
    }
  }

  private LeastSquares() {}

  /**
   * Searches from a start.
   *
   * @param mostSteps evaluations after which the search gives up
   * @param tolerance relative change of the sum of squares and of the parameters at which it ends,
   *     1e-14 at the finest
   * @return the solution, or why there is none: not settled, or not a number on the way
   */
  public static Outcome<Solution> solve(
      Problem problem, double[] start, int mostSteps, double tolerance) {
    try {
      Optimum optimum =
          new LevenbergMarquardtOptimizer()
              .withCostRelativeTolerance(tolerance)
              .withParameterRelativeTolerance(tolerance)
              .withOrthoTolerance(tolerance)
              .optimize(
                  new LeastSquaresBuilder()
                      .model(point -> evaluate(problem, point))
                      .target(new double[problem.rows()])
                      .start(start)
                      .maxEvaluations(mostSteps)
                      .maxIterations(mostSteps)
                      .build());
      double cost = optimum.getCost();
      return Double.isFinite(cost)
          ? Outcome.found(new Solution(optimum.getPoint().toArray(), cost * cost))
          : Outcome.none("the fit left the range of numbers");
    } catch (MathIllegalStateException | MathIllegalNumberException e) {
      return Outcome.none(
          String.format(Locale.ROOT, "the fit did not settle within %d steps", mostSteps));
    }
  }

  private static Pair<RealVector, RealMatrix> evaluate(Problem problem, RealVector point) {
    double[] residuals = new double[problem.rows()];
    double[][] slopes = new double[problem.rows()][point.getDimension()];
    problem.evaluate(point.toArray(), residuals, slopes);
    return new Pair<>(
        new ArrayRealVector(residuals, false), new Array2DRowRealMatrix(slopes, false));
  }
}
