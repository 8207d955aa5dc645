package conewise.analysis.fit;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import java.util.List;
import java.util.Optional;

/** Curves that a model gives at the frequencies of another, with that one's relative noise. */
final class Prediction {
  private Prediction() {}

  static ImpedanceCurve like(ImpedanceCurve measured, BoxModel model, double[] values) {
    NetworkSolver solver = Network.of(model).solver(values);
    List<ImpedancePoint> points =
        measured.points().stream().map(point -> at(solver, point)).toList();
    return new ImpedanceCurve(points, measured.scaleUncertainty());
  }

  private static ImpedancePoint at(NetworkSolver solver, ImpedancePoint measured) {
    solver.solve(measured.frequencyHz());
    double re = solver.resistanceOhm();
    double im = solver.reactanceOhm();
    Optional<ImpedanceUncertainty> uncertainty =
        measured
            .standardUncertaintyOhm()
            .map(ohm -> ohm / measured.modulusOhm() * Math.hypot(re, im))
            .map(
                ohm ->
                    measured.frequencyHz() == 0
                        ? ImpedanceUncertainty.ofResistance(ohm)
                        : ImpedanceUncertainty.circular(ohm));
    return new ImpedancePoint(measured.frequencyHz(), re, im, uncertainty);
  }
}
