package conewise.analysis.model;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/** Landmarks of a curve between two frequencies that enclose exactly one. */
final class CurveReading {
  private static final int MOST_STEPS = 300;

  private CurveReading() {}

  /** Where a value passes zero. */
  static double zeroHz(DoubleUnaryOperator value, double low, double high) {
    return new BrentSolver(1e-14, 1e-13).solve(MOST_STEPS, value::applyAsDouble, low, high);
  }

  /** Where |Z| is largest; flat at the top, so good to about 1e-8 of itself. */
  static double peakHz(Network network, double low, double high) {
    return extremeHz(network, low, high, GoalType.MAXIMIZE);
  }

  /** Where |Z| is smallest. */
  static double dipHz(Network network, double low, double high) {
    return extremeHz(network, low, high, GoalType.MINIMIZE);
  }

  private static double extremeHz(Network network, double low, double high, GoalType goal) {
    return new BrentOptimizer(1e-9, 1e-12)
        .optimize(
            new UnivariateObjectiveFunction(f -> network.impedance(f).abs()),
            goal,
            new SearchInterval(low, high),
            new MaxEval(MOST_STEPS))
        .getPoint();
  }

  /** The only resonance of a driver alone or in a closed box, without coil inductance. */
  static Resonance resonance(Network network, double directOhm, double low, double high) {
    double peak = zeroHz(f -> network.impedance(f).getImaginary(), low, high);
    double ratio = network.impedance(peak).getReal() / directOhm;
    DoubleUnaryOperator flank = f -> network.impedance(f).abs() - Math.sqrt(ratio) * directOhm;
    double lower = zeroHz(flank, peak / 1000, peak);
    double upper = zeroHz(flank, peak, peak * 1000);
    return new Resonance(peak, ratio, lower, upper);
  }

  /**
   * What a sweep's readings give: r0 = Zmax/Re; the flanks where |Z| = sqrt(r0) Re; Qm = f sqrt(r0)
   * / (f2 - f1); Qe = Qm / (r0 - 1) (R. H. Small, J. Audio Eng. Soc. 20, 1972; from memory).
   */
  record Resonance(double peakHz, double ratio, double lowerHz, double upperHz) {
    double mechanicalQ() {
      return peakHz * Math.sqrt(ratio) / (upperHz - lowerHz);
    }

    double electricalQ() {
      return mechanicalQ() / (ratio - 1);
    }

    double totalQ() {
      return mechanicalQ() / ratio;
    }
  }
}
