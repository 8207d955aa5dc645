package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outside.SystemPython;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The same curve, weights and tolerances through SciPy's least_squares, with a model of the box
 * that is written in the script by the formulas of Small (1972, 1973): the same optimum.
 */
class ScipyOptimumTest {
  private static final long SEED = 512;
  private static final double NOISE = 0.005;
  private static final double FS = 33;
  private static final double QMS = 5;
  private static final double QES = 0.4;
  private static final double VAS = 0.06;
  private static final double RE = 3.4;
  private static final double LOSSY = 0.012;
  private static final double EXPONENT = 0.68;
  private static final double VOLUME = 0.045;
  private static final double TUNING = 36;
  private static final double VENT_Q = 40;
  private static final double LEAK_Q = 12;
  private static final double SPREAD = 0.3;

  private static final String SCRIPT =
      """
      import sys, numpy as np
      from scipy.optimize import least_squares
      data = np.loadtxt(sys.argv[1])
      vented, noise, spread = data[0] > 0, data[1], data[2]
      fs, qms, qes, vas, re, k, n, volume, fb, qp, ql = data[3:14]
      f, x, y = data[14:].reshape(-1, 3).T
      w = 2 * np.pi * f
      bulk = 1.204 * 343.2 ** 2
      measured = x + 1j * y
      def impedance(c):
          Fs, Qms, Qes, Vas, Re, K, Ql = np.array([fs, qms, qes, vas, re, k, ql]) * np.exp(c[:7])
          ws = 2 * np.pi * Fs
          mass = bulk / (ws ** 2 * Vas)
          cone = 1j * w * mass + ws * mass / Qms + bulk / (1j * w * Vas)
          box = 1j * w * volume / bulk + 2 * np.pi * 40 * volume / bulk / Ql
          if vented:
              wb = 2 * np.pi * fb * np.exp(c[7])
              vent = bulk / (wb ** 2 * volume)
              box = box + 1 / (1j * w * vent + wb * vent / qp)
          force = ws * mass * Re / Qes
          return Re + K * (1j * w) ** n + force / (cone + 1 / box)
      def residuals(c):
          ratio = np.log(impedance(c) / measured) / noise
          return np.concatenate([ratio.real, ratio.imag, c / spread])
      r = least_squares(residuals, np.zeros(8 if vented else 7), method='trf', jac='3-point',
                        xtol=1e-15, ftol=1e-15, gtol=1e-15)
      print(*[float(v) for v in r.x])
      print(float(2 * r.cost))
      """;

  @TempDir Path folder;

  @BeforeAll
  static void pythonIsThere() throws IOException, InterruptedException {
    SystemPython.require();
  }

  private static BoxModel box(boolean vented) {
    Driver driver =
        Driver.of(FS, QMS, QES, VAS, 1, RE).withInductance(Inductance.lossy(LOSSY, EXPONENT), 0);
    List<Opening> openings = new ArrayList<>();
    openings.add(new Mounted("a", driver, "main", Space.OUTSIDE));
    openings.add(new Leak("leak", LEAK_Q, "main", Space.OUTSIDE));
    if (vented) {
      openings.add(new Vent("vent", TUNING, VENT_Q, "main", Space.OUTSIDE));
    }
    return new BoxModel(
        Air.AT_20_CELSIUS, List.of(new Space("main", VOLUME)), openings, Circuit.coil("a", 1));
  }

  private static List<Unknown> unknowns(boolean vented) {
    List<Unknown> list = new ArrayList<>();
    for (Kind kind :
        List.of(
            Kind.RESONANCE,
            Kind.MECHANICAL_Q,
            Kind.ELECTRICAL_Q,
            Kind.EQUIVALENT_VOLUME,
            Kind.COIL_RESISTANCE,
            Kind.LOSSY_INDUCTANCE)) {
      list.add(Unknown.planned(SPREAD, new Quantity("a", kind)));
    }
    list.add(Unknown.planned(SPREAD, new Quantity("leak", Kind.LEAK_Q)));
    if (vented) {
      list.add(Unknown.planned(SPREAD, new Quantity("vent", Kind.TUNING)));
    }
    return list;
  }

  /** The box with every quantity off its plan, and noise. */
  private static ImpedanceCurve curve(BoxModel box) {
    Random random = new Random(SEED);
    Network network = Network.of(box);
    double[] values = network.nominal();
    for (int i = 0; i < values.length; i++) {
      if (network.quantities().get(i).kind().isLogarithmic()) {
        values[i] *= Math.exp(0.08 * random.nextGaussian());
      }
    }
    NetworkSolver solver = network.solver(values);
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f = 10; f < 400; f *= 1.045) {
      solver.solve(f);
      double sigma = NOISE * Math.hypot(solver.resistanceOhm(), solver.reactanceOhm());
      double re = solver.resistanceOhm() + sigma * random.nextGaussian();
      double im = solver.reactanceOhm() + sigma * random.nextGaussian();
      // The weight is the same share of every measured modulus, as in the script.
      points.add(
          new ImpedancePoint(
              f, re, im, Optional.of(ImpedanceUncertainty.circular(NOISE * Math.hypot(re, im)))));
    }
    return new ImpedanceCurve(points);
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void scipyFindsTheSameOptimum(boolean vented) throws Exception {
    BoxModel box = box(vented);
    ImpedanceCurve curve = curve(box);
    List<Double> data = new ArrayList<>();
    data.addAll(List.of(vented ? 1.0 : 0.0, NOISE, SPREAD));
    data.addAll(List.of(FS, QMS, QES, VAS, RE, LOSSY, EXPONENT, VOLUME, TUNING, VENT_Q, LEAK_Q));
    curve
        .points()
        .forEach(p -> data.addAll(List.of(p.frequencyHz(), p.resistanceOhm(), p.reactanceOhm())));
    List<double[]> rows =
        SystemPython.run(folder, SCRIPT, data.stream().mapToDouble(Double::doubleValue).toArray());
    BoxProblem problem = new BoxProblem(List.of(new Sweep(box, curve)), unknowns(vented));
    problem.set(Discrepancy.NONE, new double[problem.unknowns().size() + 1]);
    double[] start = problem.free(new double[problem.unknowns().size() + 1]);
    Outcome<Solution> outcome = LeastSquares.solve(problem, start, 200, 1e-14);
    assertTrue(outcome instanceof Found<Solution>, "seed " + SEED + ": " + outcome);
    Solution solution = ((Found<Solution>) outcome).value();
    double[] coordinates = problem.coordinates(solution.parameters());
    for (int k = 0; k < rows.get(0).length; k++) {
      String where = "seed " + SEED + ", " + problem.unknowns().get(k).name();
      assertEquals(rows.get(0)[k], coordinates[k], 1e-6, where);
    }
    double expected = rows.get(1)[0];
    assertEquals(expected, solution.sumOfSquares(), 1e-8 * expected, "seed " + SEED);
  }
}
