package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The slopes from the adjoint relation against central differences of the solution itself, over
 * boxes of any structure.
 */
class NetworkSlopesTest {
  private static final double STEP = 1e-5;

  @Test
  void slopesAreThoseOfTheSolutionItself() {
    long seed = 71;
    Random random = new Random(seed);
    for (int box = 0; box < 200; box++) {
      Network network = Network.of(DrawnModels.box(random));
      double[] frequencies = {0, 9.7, 23, 41, 100, 390};
      for (double frequency : frequencies) {
        requireSlopes(network, frequency, "seed " + seed + ", box " + box);
      }
    }
  }

  private static void requireSlopes(Network network, double frequency, String which) {
    List<Quantity> quantities = network.quantities();
    double[] re = new double[quantities.size()];
    double[] im = new double[quantities.size()];
    NetworkSolver solver = network.solver(network.nominal());
    solver.solve(frequency);
    double modulus = Math.hypot(solver.resistanceOhm(), solver.reactanceOhm());
    solver.slopes(re, im);
    for (int i = 0; i < quantities.size(); i++) {
      double[] up = at(network, i, STEP, frequency);
      double[] down = at(network, i, -STEP, frequency);
      String where = which + ", " + quantities.get(i) + " at " + frequency + " Hz";
      assertEquals((up[0] - down[0]) / (2 * STEP), re[i], 2e-6 * modulus, where);
      assertEquals((up[1] - down[1]) / (2 * STEP), im[i], 2e-6 * modulus, where);
    }
  }

  private static double[] at(Network network, int quantity, double step, double frequency) {
    double[] values = network.nominal();
    boolean logarithmic = network.quantities().get(quantity).kind().isLogarithmic();
    values[quantity] = logarithmic ? values[quantity] * Math.exp(step) : values[quantity] + step;
    NetworkSolver solver = network.solver(values);
    solver.solve(frequency);
    return new double[] {solver.resistanceOhm(), solver.reactanceOhm()};
  }
}
