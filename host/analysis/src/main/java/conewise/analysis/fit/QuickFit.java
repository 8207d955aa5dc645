package conewise.analysis.fit;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealVector;

/**
 * The least sum of squares of a problem whose unknowns all have a finite spread, by damped
 * Gauss-Newton steps on the normal equations (Marquardt, SIAM J. Appl. Math. 11, 1963). What is
 * known beforehand keeps the equations well posed, so they need no orthogonal factors, and each
 * step costs little beside the model itself. It ends where a step would gain less than a given part
 * of the sum of squares' own standard deviation, not at the last digit.
 */
final class QuickFit {
  private static final double FIRST_DAMPING = 1e-3;
  private static final double LEAST_DAMPING = 1e-7;
  private static final double MOST_DAMPING = 1e8;
  private static final double EASIER = 0.2;
  private static final double HARDER = 4;

  private final BoxProblem problem;
  private final int size;
  private double[] at;
  private double cost;
  private double damping = FIRST_DAMPING;
  private double[][] information;
  private double[] gradient;

  QuickFit(BoxProblem problem, double[] start) {
    this.problem = problem;
    size = problem.parameters();
    at = problem.held(start);
    linearise();
  }

  private void linearise() {
    information = new double[size][size];
    gradient = new double[size];
    cost = problem.normalEquations(at, information, gradient);
  }

  /**
   * Steps on.
   *
   * @param gain stops when a step would lower the sum of squares by less
   * @return false where it has not settled within so many steps
   */
  boolean settle(int mostSteps, double gain) {
    for (int step = 0; step < mostSteps; step++) {
      double[] direction = direction();
      double expected = expected(direction);
      if (!(expected > gain)) {
        return Double.isFinite(cost);
      }
      double[] next = problem.held(sum(at, direction));
      double nextCost = problem.cost(next);
      if (nextCost < cost) {
        at = next;
        damping = Math.max(LEAST_DAMPING, damping * EASIER);
        linearise();
      } else {
        damping *= HARDER;
        if (damping > MOST_DAMPING) {
          return Double.isFinite(cost);
        }
      }
    }
    return false;
  }

  private double[] direction() {
    double[][] damped = new double[size][];
    for (int k = 0; k < size; k++) {
      damped[k] = information[k].clone();
      damped[k][k] *= 1 + damping;
    }
    try {
      RealVector solved =
          new CholeskyDecomposition(new Array2DRowRealMatrix(damped, false), 1e-6, 1e-30)
              .getSolver()
              .solve(new ArrayRealVector(gradient, false));
      return solved.mapMultiplyToSelf(-1).toArray();
    } catch (NonPositiveDefiniteMatrixException e) {
      return new double[size];
    }
  }

  /** What the straight model says that the step gains. */
  private double expected(double[] direction) {
    double first = 0;
    double second = 0;
    for (int k = 0; k < size; k++) {
      first += gradient[k] * direction[k];
      for (int l = 0; l < size; l++) {
        second += direction[k] * information[k][l] * direction[l];
      }
    }
    return -(2 * first + second);
  }

  private static double[] sum(double[] a, double[] b) {
    double[] sum = Arrays.copyOf(a, a.length);
    for (int k = 0; k < b.length; k++) {
      sum[k] += b[k];
    }
    return sum;
  }

  double[] coordinates() {
    return at.clone();
  }
}
