package conewise.analysis.parameter;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.UsualUnknowns;
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
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Noise must not lean on a fit, however many points there are. */
final class DenseCurveTest {
  private static final double NOISE = 0.008;
  private static final int SWEEPS = 30;

  /**
   * The mean of many noisy fits is the fit of the same curve without noise (which what is known
   * beforehand of coils may draw off the truth), within 3.5 of its standard errors.
   */
  @ParameterizedTest
  @ValueSource(ints = {60, 120, 500})
  void noiseLeansNeitherOnResistanceNorOnResonanceWithoutPointAtZero(int points) {
    long seed = new Random().nextLong();
    System.out.println("dense curves of " + points + " points, seed " + seed);
    Random random = new Random(seed);
    DriverFigures exact = figures(points, 0, random);
    SummaryStatistics resistance = new SummaryStatistics();
    SummaryStatistics resonance = new SummaryStatistics();
    for (int i = 0; i < SWEEPS; i++) {
      DriverFigures figures = figures(points, NOISE, random);
      resistance.addValue(value(figures.dcResistanceOhm()));
      resonance.addValue(value(figures.resonanceHz()));
    }
    assertNear(value(exact.dcResistanceOhm()), resistance, seed);
    assertNear(value(exact.resonanceHz()), resonance, seed);
    assertEquals(6.2, value(exact.dcResistanceOhm()), 0.2);
    assertEquals(32, value(exact.resonanceHz()), 0.02);
  }

  /**
   * A vented box as planned, so that what is known beforehand draws nothing aside: the mean of many
   * fits is the truth, within 3.5 of its standard errors.
   */
  @Test
  void noiseLeansOnNothingOfAVentedBoxWithoutPointAtZero() {
    long seed = new Random().nextLong();
    System.out.println("dense curves of a vented box, seed " + seed);
    Random random = new Random(seed);
    BoxModel box = vented();
    Map<String, SummaryStatistics> off = new LinkedHashMap<>();
    for (int i = 0; i < 3 * SWEEPS; i++) {
      List<Sweep> sweep = List.of(new Sweep(box, noisy(box, 500, NOISE, random)));
      Outcome<BoxFit> outcome = BoxFit.of(sweep, UsualUnknowns.of(box), Discrepancy.NONE);
      BoxFit fit = ((Found<BoxFit>) outcome).value();
      add(off, "Re", fit.value(new Quantity("a", Kind.COIL_RESISTANCE)) / 6.2);
      add(off, "fs", fit.value(new Quantity("a", Kind.RESONANCE)) / 32);
      add(off, "Qts", totalQ(fit) / (5 * 0.45 / (5 + 0.45)));
      add(off, "tuning", fit.value(new Quantity("vent", Kind.TUNING)) / 34);
    }
    off.forEach(
        (name, of) ->
            assertEquals(
                0, of.getMean(), 3.5 * standardError(of), name + ", seed " + seed + ": " + of));
  }

  private static void add(Map<String, SummaryStatistics> off, String name, double ratio) {
    off.computeIfAbsent(name, key -> new SummaryStatistics()).addValue(ratio - 1);
  }

  private static double totalQ(BoxFit fit) {
    double qms = fit.value(new Quantity("a", Kind.MECHANICAL_Q));
    double qes = fit.value(new Quantity("a", Kind.ELECTRICAL_Q));
    return qms * qes / (qms + qes);
  }

  private static BoxModel vented() {
    Driver driver =
        Driver.of(32, 5, 0.45, 0.05, 1, 6.2).withInductance(Inductance.lossy(0.008, 0.7), 0);
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(new Space("main", 0.04)),
        List.of(
            new Mounted("a", driver, "main", Space.OUTSIDE),
            new Vent("vent", 34, 60, "main", Space.OUTSIDE),
            new Leak("leak", 12, "main", Space.OUTSIDE)),
        Circuit.coil("a", 1));
  }

  private static double standardError(SummaryStatistics of) {
    return of.getStandardDeviation() / Math.sqrt((double) of.getN());
  }

  private static DriverFigures figures(int points, double noise, Random random) {
    Driver driver =
        Driver.of(32, 5, 0.45, 0.05, 1, 6.2).withInductance(Inductance.lossy(0.008, 0.7), 0);
    ImpedanceCurve curve = noisy(BoxModel.freeAir(driver), points, noise, random);
    return ((Found<DriverFigures>) DriverMeasurement.freeAir(curve, 1).figures()).value();
  }

  private static double value(Outcome<Estimate> outcome) {
    return ((Found<Estimate>) outcome).value().value();
  }

  private static void assertNear(double exact, SummaryStatistics of, long seed) {
    double error = of.getStandardDeviation() / Math.sqrt((double) of.getN());
    assertEquals(exact, of.getMean(), 3.5 * error, "seed " + seed);
  }

  private static ImpedanceCurve noisy(BoxModel box, int count, double noise, Random random) {
    Network network = Network.of(box);
    NetworkSolver solver = network.solver(network.nominal());
    List<ImpedancePoint> points = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double hz = 9.5 * Math.pow(400 / 9.5, i / (count - 1.0));
      solver.solve(hz);
      double size = Math.hypot(solver.resistanceOhm(), solver.reactanceOhm());
      points.add(
          new ImpedancePoint(
              hz,
              solver.resistanceOhm() + noise * size * random.nextGaussian(),
              solver.reactanceOhm() + noise * size * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(NOISE * size))));
    }
    return new ImpedanceCurve(points);
  }
}
