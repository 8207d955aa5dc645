package conewise.analysis.fit;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealVector;

/**
 * The least sum of squares of a problem whose unknowns all have a finite spread, by damped
 * Gauss-Newton steps on the normal equations (D. W. Marquardt, SIAM J. Appl. Math. 11, 1963; the
 * damping by the gain, H. B. Nielsen, IMM-REP-1999-05). What is known beforehand keeps the
 * equations well posed, so they need no orthogonal factors, and each step costs little beside the
 * model itself. It ends where a step would gain less than a given part of the sum of squares' own
 * standard deviation, not at the last digit.
 */
final class QuickFit {
  private static final double FIRST_DAMPING = 1e-3;
  private static final double LEAST_DAMPING = 1e-6;
  private static final double MOST_DAMPING = 1e8;
  private static final double EASIEST = 0.2;
  private static final double HARDER = 2;

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
    information = new double[size][size];
    gradient = new double[size];
    cost = problem.normalEquations(at, information, gradient);
  }

  /** Takes a point with its normal equations if it is better than where the fit is. */
  private boolean take(double[] next) {
    double[][] nextInformation = new double[size][size];
    double[] nextGradient = new double[size];
    double nextCost = problem.normalEquations(next, nextInformation, nextGradient);
    if (!(nextCost < cost)) {
      return false;
    }
    at = next;
    cost = nextCost;
    information = nextInformation;
    gradient = nextGradient;
    return true;
  }

  /**
   * Steps on.
   *
   * @param gain stops when a step would lower the sum of squares by less
   * @return false where it has not settled within so many steps
   */
  boolean settle(int mostSteps, double gain) {
    double harder = HARDER;
    for (int step = 0; step < mostSteps; step++) {
      double[] direction = direction();
      double expected = expected(direction);
      if (!(expected > gain)) {
        return Double.isFinite(cost);
      }
      double[] next = problem.held(sum(at, direction));
      double before = cost;
      if (take(next)) {
        double ratio = (before - cost) / expected;
        double easier = 1 - Math.pow(2 * ratio - 1, 3);
        damping = Math.max(LEAST_DAMPING, damping * Math.max(EASIEST, easier));
        harder = HARDER;
      } else {
        damping *= harder;
        harder *= 2;
        if (damping > MOST_DAMPING) {
          return Double.isFinite(cost);
        }
      }
    }
    return false;
  }

  /** A damped step; coordinates that lean on their limit stay there. */
  private double[] direction() {
    double[][] damped = new double[size][];
    double[] slope = gradient.clone();
    for (int k = 0; k < size; k++) {
      damped[k] = information[k].clone();
      damped[k][k] *= 1 + damping;
    }
    for (int k = 0; k < size; k++) {
      if (problem.leans(k, at[k], -gradient[k])) {
        hold(damped, slope, k);
      }
    }
    try {
      RealVector solved =
          new CholeskyDecomposition(new Array2DRowRealMatrix(damped, false), 1e-6, 1e-30)
              .getSolver()
              .solve(new ArrayRealVector(slope, false));
      return solved.mapMultiplyToSelf(-1).toArray();
    } catch (NonPositiveDefiniteMatrixException e) {
      return new double[size];
    }
  }

  private void hold(double[][] matrix, double[] slope, int k) {
    for (int l = 0; l < size; l++) {
      matrix[k][l] = 0;
      matrix[l][k] = 0;
    }
    matrix[k][k] = 1;
    slope[k] = 0;
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
