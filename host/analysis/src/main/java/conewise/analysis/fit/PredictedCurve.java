package conewise.analysis.fit;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Quantity;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The curve that a box would show with its unknowns at given places. */
public final class PredictedCurve {
  private PredictedCurve() {}

  /**
   * Computes it.
   *
   * @param coordinates by the unknowns' names; those left out are where they are expected
   * @param frequencyHz at least one, rising, each at least 0
   */
  public static ImpedanceCurve of(
      BoxModel model,
      List<Unknown> unknowns,
      Map<String, Double> coordinates,
      double... frequencyHz) {
    Network network = Network.of(model);
    return of(network, values(network, unknowns, coordinates), frequencyHz);
  }

  /**
   * The values of a network's quantities, in its order, with unknowns at given places.
   *
   * @param coordinates by the unknowns' names; those left out are where they are expected
   */
  public static double[] values(
      Network network, List<Unknown> unknowns, Map<String, Double> coordinates) {
    double[] values = network.nominal();
    for (Unknown unknown : unknowns) {
      double coordinate = coordinates.getOrDefault(unknown.name(), unknown.centre());
      for (Quantity quantity : unknown.moves()) {
        int index = network.quantities().indexOf(quantity);
        if (index >= 0) {
          values[index] = Unknown.moved(quantity, values[index], coordinate);
        }
      }
    }
    return values;
  }

  /** The same at given values of the network's quantities. */
  static ImpedanceCurve of(BoxModel model, double[] values, double... frequencyHz) {
    return of(Network.of(model), values, frequencyHz);
  }

  private static ImpedanceCurve of(Network network, double[] values, double... frequencyHz) {
    NetworkSolver solver = network.solver(values);
    return new ImpedanceCurve(
        Arrays.stream(frequencyHz).mapToObj(hz -> point(solver, hz)).toList());
  }

  private static ImpedancePoint point(NetworkSolver solver, double hz) {
    solver.solve(hz);
    return new ImpedancePoint(hz, solver.resistanceOhm(), solver.reactanceOhm(), Optional.empty());
  }
}
