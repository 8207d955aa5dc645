package conewise.analysis.impedance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class SmoothReadingTest {
  private static final long SEED = 20261126;
  private static final double NOISE_OHM = 0.02;

  /** A resistor through two channels whose filters differ by a tenth, with 20 microhenry leads. */
  private static Complex resistor(double hz) {
    return new Complex(9.7, 2 * Math.PI * hz * 20e-6)
        .multiply(new Complex(1, hz / 1575))
        .divide(new Complex(1, hz / 1425));
  }

  private static ImpedanceCurve read(
      DoubleFunction<Complex> truth, double noiseOhm, Random random) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (int k = 0; k < 100; k++) {
      double hz = 10 * Math.pow(40, k / 99.0);
      Complex z = truth.apply(hz);
      points.add(
          new ImpedancePoint(
              hz,
              z.getReal() + noiseOhm * random.nextGaussian(),
              z.getImaginary() + noiseOhm * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(NOISE_OHM))));
    }
    return new ImpedanceCurve(points, 0.01);
  }

  @Test
  void aReadingThatCannotBendKeepsItsShapeToAHundredthOfAPerCent() {
    ImpedanceCurve smooth =
        SmoothReading.of(read(SmoothReadingTest::resistor, 0, new Random(SEED)));
    for (ImpedancePoint point : smooth.points()) {
      Complex is = resistor(point.frequencyHz());
      double off =
          new Complex(point.resistanceOhm(), point.reactanceOhm()).subtract(is).abs() / is.abs();
      assertEquals(0, off, 1e-4, point.frequencyHz() + " Hz");
    }
    assertEquals(0.01, smooth.scaleUncertainty());
  }

  @Test
  void itsNoiseFallsAsLeastSquaresSayAndTheStatedUncertaintyIsTrue() {
    Random random = new Random(SEED);
    double squares = 0;
    double stated = 0;
    int count = 0;
    for (int run = 0; run < 50; run++) {
      ImpedanceCurve smooth =
          SmoothReading.of(read(SmoothReadingTest::resistor, NOISE_OHM, random));
      for (ImpedancePoint point : smooth.points()) {
        double off = point.resistanceOhm() - resistor(point.frequencyHz()).getReal();
        squares += off * off;
        stated += point.uncertainty().orElseThrow().varianceResistance();
        count++;
      }
    }
    // The mean variance of a fitted value is that of the noise times coefficients over points
    // (linear least squares: the trace of the projection).
    double expected = NOISE_OHM * NOISE_OHM * 3 / 100;
    assertEquals(1, squares / count / expected, 0.35, "seed " + SEED);
    assertEquals(1, stated / count / expected, 0.1, "seed " + SEED);
  }

  @Test
  void aBoxAndAShortCurveStayAsTheyWere() {
    ImpedanceCurve box =
        read(
            hz -> new Complex(4).add(new Complex(0.04, hz / 30 - 30 / hz).reciprocal()),
            0,
            new Random(SEED));
    assertSame(box, SmoothReading.of(box));
    ImpedanceCurve few =
        new ImpedanceCurve(
            read(SmoothReadingTest::resistor, 0, new Random(1)).points().subList(0, 9));
    assertSame(few, SmoothReading.of(few));
  }

  @Test
  void openTerminalsKeepTheirLeakageAndTheirCapacitance() {
    Random random = new Random(SEED);
    List<OpenReading.Point> points = new ArrayList<>();
    for (int k = 0; k < 100; k++) {
      double hz = 10 * Math.pow(40, k / 99.0);
      points.add(
          new OpenReading.Point(
              hz,
              2e-5 + 1e-6 * random.nextGaussian(),
              2 * Math.PI * hz * 1e-8 + 1e-6 * random.nextGaussian(),
              1e-6));
    }
    OpenReading smooth = SmoothReading.of(new OpenReading(points));
    for (OpenReading.Point point : smooth.points()) {
      double u = point.standardUncertaintySiemens();
      assertTrue(u < 0.7e-6, "states " + u);
      assertEquals(2e-5, point.conductanceSiemens(), 4 * u, "seed " + SEED);
      assertEquals(2 * Math.PI * point.frequencyHz() * 1e-8, point.susceptanceSiemens(), 4 * u);
    }
  }
}
