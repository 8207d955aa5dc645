package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.util.Pair;

/** The curve in arrays, with weak priors that keep the coil and the widths within reason. */
final class FitProblem {
  private static final double LEAST_SIGMA = 0.002;
  private static final double LEAST_OHM = 1e-6;
  private static final double KAPPA_SIGMA = 2;
  private static final double NU_SIGMA = 1.5;
  private static final double WIDTH_SIGMA = 4;

  private final ResonanceSum shape;
  private final double[] frequencies;
  private final Complex[] values;
  private final double[] weights;
  private final double[] start;

  private FitProblem(
      ResonanceSum shape,
      double[] frequencies,
      Complex[] values,
      double[] weights,
      double[] start) {
    this.shape = shape;
    this.frequencies = frequencies;
    this.values = values;
    this.weights = weights;
    this.start = start;
  }

  static FitProblem of(ImpedanceCurve curve, ResonanceSum shape, double[] start) {
    List<ImpedancePoint> points =
        curve.points().stream()
            .filter(p -> p.frequencyHz() > 0 && p.frequencyHz() <= shape.topHz())
            .toList();
    double[] frequencies = points.stream().mapToDouble(ImpedancePoint::frequencyHz).toArray();
    Complex[] values =
        points.stream()
            .map(p -> new Complex(p.resistanceOhm(), p.reactanceOhm()))
            .toArray(Complex[]::new);
    double[] weights =
        points.stream()
            .mapToDouble(
                p ->
                    1
                        / Math.max(
                            LEAST_SIGMA * Math.max(LEAST_OHM, p.modulusOhm()),
                            p.uncertainty().map(u -> u.standardUncertaintyOhm()).orElse(0.0)))
            .toArray();
    return new FitProblem(shape, frequencies, values, weights, start.clone());
  }

  int rows() {
    return 2 * frequencies.length + 2 + shape.resonances();
  }

  Pair<RealVector, RealMatrix> evaluate(RealVector point) {
    double[] p = point.toArray();
    double[] residual = new double[rows()];
    for (int i = 0; i < frequencies.length; i++) {
      Complex error = shape.impedance(p, frequencies[i]).subtract(values[i]);
      residual[2 * i] = error.getReal() * weights[i];
      residual[2 * i + 1] = error.getImaginary() * weights[i];
    }
    RealMatrix jacobian = shape.jacobian(p, frequencies, weights, rows());
    int row = 2 * frequencies.length;
    prior(p, 1, KAPPA_SIGMA, row++, residual, jacobian);
    prior(p, 2, NU_SIGMA, row++, residual, jacobian);
    for (int k = 0; k < shape.resonances(); k++) {
      prior(p, shape.resonanceAt(k) + 1, WIDTH_SIGMA, row++, residual, jacobian);
    }
    return new Pair<>(new ArrayRealVector(residual, false), jacobian);
  }

  private void prior(
      double[] p, int at, double sigma, int row, double[] residual, RealMatrix jacobian) {
    residual[row] = (p[at] - start[at]) / sigma;
    jacobian.setEntry(row, at, 1 / sigma);
  }

  Outcome<ResonanceFit> result(Optimum optimum) {
    double[] p = optimum.getPoint().toArray();
    int freedom = 2 * frequencies.length - shape.size();
    if (freedom < 2) {
      return Outcome.none(
          frequencies.length + " points are too few for " + shape.resonances() + " resonances");
    }
    double squares = 0;
    double relative = 0;
    for (int i = 0; i < frequencies.length; i++) {
      double error = shape.impedance(p, frequencies[i]).subtract(values[i]).abs();
      squares += error * error * weights[i] * weights[i];
      relative += error * error / Math.pow(Math.max(LEAST_OHM, values[i].abs()), 2);
    }
    if (!Double.isFinite(squares) || !(p[0] > 0)) {
      return Outcome.none("the fit of resonances left the positive resistances");
    }
    try {
      RealMatrix covariance =
          optimum.getCovariances(1e-13).scalarMultiply(Math.max(1, squares / freedom));
      return Outcome.found(
          new ResonanceFit(shape, p, covariance, Math.sqrt(relative / (2 * frequencies.length))));
    } catch (SingularMatrixException e) {
      return Outcome.none("the curve does not fix all parameters of its resonances");
    }
  }
}
