package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import org.apache.commons.math3.exception.MathIllegalNumberException;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * A {@link ResonanceSum} fitted to a curve by weighted least squares (Levenberg 1944, Marquardt
 * 1963; the library's).
 */
final class ResonanceFit {

  private static final int MOST_EVALUATIONS = 150;

  private final ResonanceSum shape;
  private final double[] parameters;
  private final RealMatrix covariance;
  private final double relativeResidual;

  ResonanceFit(
      ResonanceSum shape, double[] parameters, RealMatrix covariance, double relativeResidual) {
    this.shape = shape;
    this.parameters = parameters;
    this.covariance = covariance;
    this.relativeResidual = relativeResidual;
  }

  ResonanceSum shape() {
    return shape;
  }

  double[] parameters() {
    return parameters;
  }

  /** Of the parameters, scaled by what is left over. */
  RealMatrix covariance() {
    return covariance;
  }

  /** Root mean square of what is left over |Z|. */
  double relativeResidual() {
    return relativeResidual;
  }

  /** Fits, starting at given parameters. */
  static Outcome<ResonanceFit> fit(ImpedanceCurve curve, ResonanceSum shape, double[] start) {
    FitProblem problem = FitProblem.of(curve, shape, start);
    try {
      Optimum optimum =
          new LevenbergMarquardtOptimizer()
              .withCostRelativeTolerance(1e-9)
              .withParameterRelativeTolerance(1e-8)
              .optimize(
                  new LeastSquaresBuilder()
                      .model(problem::evaluate)
                      .target(new double[problem.rows()])
                      .start(start)
                      .maxEvaluations(MOST_EVALUATIONS)
                      .maxIterations(MOST_EVALUATIONS)
                      .build());
      return problem.result(optimum);
    } catch (MathIllegalStateException | MathIllegalNumberException e) {
      return Outcome.none(
          "a sum of "
              + shape.resonances()
              + " resonances did not settle on the curve within "
              + MOST_EVALUATIONS
              + " steps");
    }
  }
}
