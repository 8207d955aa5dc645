package conewise.analysis.parameter;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
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
