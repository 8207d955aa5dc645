package conewise.analysis.impedance;

import static conewise.analysis.sampling.Samples.because;
import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class OnePortCorrectionTest {

  /** A reading through a two-port with chain matrix (a b; c d): Zx = (a Z + b)/(c Z + d). */
  private record TwoPort(Complex a, Complex b, Complex c, Complex d) {
    static TwoPort random(Random random) {
      return new TwoPort(
          new Complex(1 + 0.3 * random.nextGaussian(), 0.3 * random.nextGaussian()),
          new Complex(random.nextGaussian(), random.nextGaussian()),
          new Complex(0.01 * random.nextGaussian(), 0.01 * random.nextGaussian()),
          new Complex(1 + 0.3 * random.nextGaussian(), 0.3 * random.nextGaussian()));
    }

    Complex read(Complex z) {
      return a.multiply(z).add(b).divide(c.multiply(z).add(d));
    }

    OnePortCorrection calibrated(double hz, double standardOhm, double standardU) {
      Complex openAdmittance = c.divide(a);
      return new OnePortCorrection(
          new OpenReading(
              List.of(
                  new OpenReading.Point(
                      hz, openAdmittance.getReal(), openAdmittance.getImaginary(), 0))),
          curve(hz, b.divide(d)),
          curve(hz, read(new Complex(standardOhm))),
          standardOhm,
          standardU);
    }
  }

  @Test
  void anyLinearTwoPortDropsOut() {
    long seed = 314;
    Random random = new Random(seed);
    for (int trial = 0; trial < 300; trial++) {
      TwoPort jig = TwoPort.random(random);
      Complex z = new Complex(1 + 30 * random.nextDouble(), 20 * random.nextGaussian());
      ImpedancePoint back = found(jig.calibrated(50, 10, 0).apply(point(50, jig.read(z))));
      String where = "trial " + trial + " of seed " + seed;
      assertEquals(z.getReal(), back.resistanceOhm(), 1e-9 * z.abs(), where);
      assertEquals(z.getImaginary(), back.reactanceOhm(), 1e-9 * z.abs(), where);
    }
  }

  /** Against small changes of each input, one by one: JCGM 100, 5.1.3 note 2. */
  @Test
  void uncertaintyEqualsTheSumOfTheEffectsOfSmallChanges() {
    long seed = 27;
    Random random = new Random(seed);
    for (int trial = 0; trial < 50; trial++) {
      TwoPort jig = TwoPort.random(random);
      Complex z = new Complex(8, 5);
      Complex[] inputs = {
        jig.c().divide(jig.a()), jig.b().divide(jig.d()), jig.read(new Complex(10)), jig.read(z)
      };
      double[] u = {1e-5, 0.002, 0.003, 0.004};
      double uStandard = 0.02;
      ImpedancePoint base = corrected(inputs, u, 10, uStandard);
      double rr = 0;
      double xx = 0;
      double rx = 0;
      for (int input = 0; input < 4; input++) {
        for (Complex direction : new Complex[] {Complex.ONE, Complex.I}) {
          Complex[] moved = inputs.clone();
          moved[input] = moved[input].add(direction.multiply(1e-3 * u[input]));
          ImpedancePoint there = corrected(moved, u, 10, uStandard);
          double dr = (there.resistanceOhm() - base.resistanceOhm()) * 1e3;
          double dx = (there.reactanceOhm() - base.reactanceOhm()) * 1e3;
          rr += dr * dr;
          xx += dx * dx;
          rx += dr * dx;
        }
      }
      ImpedancePoint there = corrected(inputs, u, 10 + 1e-3 * uStandard, uStandard);
      double dr = (there.resistanceOhm() - base.resistanceOhm()) * 1e3;
      double dx = (there.reactanceOhm() - base.reactanceOhm()) * 1e3;
      ImpedanceUncertainty stated = base.uncertainty().orElseThrow();
      String where = "trial " + trial + " of seed " + seed;
      assertEquals(1, (rr + dr * dr) / stated.varianceResistance(), 1e-3, where);
      assertEquals(1, (xx + dx * dx) / stated.varianceReactance(), 1e-3, where);
      double size = Math.sqrt(stated.varianceResistance() * stated.varianceReactance());
      assertEquals(rx + dr * dx, stated.covariance(), 1e-3 * size, where);
    }
  }

  @Test
  void identityChangesNothingAtAnyFrequency() {
    for (double hz : new double[] {0.1, 10, 399.9, 20_000}) {
      ImpedancePoint point =
          new ImpedancePoint(hz, 6.5, -2.25, Optional.of(new ImpedanceUncertainty(4, 1, 0.5)));
      ImpedancePoint back = found(OnePortCorrection.identity().apply(point));
      assertEquals(6.5, back.resistanceOhm(), 1e-12);
      assertEquals(-2.25, back.reactanceOhm(), 1e-12);
      ImpedanceUncertainty u = back.uncertainty().orElseThrow();
      assertEquals(4, u.varianceResistance(), 1e-12);
      assertEquals(1, u.varianceReactance(), 1e-12);
      assertEquals(0.5, u.covariance(), 1e-12);
    }
  }

  @Test
  void nominalCorrectionTakesTheLeadAndScales() {
    ImpedancePoint back =
        found(OnePortCorrection.nominal(0.2, 1.05, 0.01).apply(point(100, new Complex(8.2, 1))));
    assertEquals(8.4, back.resistanceOhm(), 1e-12);
    assertEquals(1.05, back.reactanceOhm(), 1e-12);
    assertEquals(0.084, Math.sqrt(back.uncertainty().orElseThrow().varianceResistance()), 1e-9);
  }

  @Test
  void outsideItsRangeThereIsNoResult() {
    OnePortCorrection correction = TwoPort.random(new Random(1)).calibrated(50, 10, 0.1);
    String because = because(correction.apply(point(50.5, new Complex(8))));
    assertTrue(because.contains("50.5000 Hz cannot be corrected"), because);
    assertTrue(because.contains("from 50.0000 to 50.0000 Hz"), because);
    ImpedanceCurve curve =
        new ImpedanceCurve(List.of(point(50, new Complex(8)), point(60, new Complex(8))));
    assertTrue(because(correction.apply(curve)).contains("60.0000 Hz"));
  }

  @Test
  void readingsBetweenFrequenciesAreInterpolated() {
    Optional<ImpedanceUncertainty> none = Optional.empty();
    ImpedanceCurve shorted =
        new ImpedanceCurve(
            List.of(new ImpedancePoint(10, 0.1, 0, none), new ImpedancePoint(30, 0.3, 0.2, none)));
    ImpedanceCurve standard =
        new ImpedanceCurve(
            List.of(
                new ImpedancePoint(10, 10.1, 0, none), new ImpedancePoint(30, 10.3, 0.2, none)));
    OnePortCorrection correction =
        new OnePortCorrection(OpenReading.perfect(), shorted, standard, 10, 0);
    ImpedancePoint back = found(correction.apply(point(15, new Complex(7.15, 1.05))));
    assertEquals(7, back.resistanceOhm(), 1e-12);
    assertEquals(1, back.reactanceOhm(), 1e-12);
  }

  @Test
  void shortAndStandardThatReadAlikeGiveNoResult() {
    ImpedanceCurve same = curve(50, new Complex(0.2));
    OnePortCorrection correction =
        new OnePortCorrection(OpenReading.perfect(), same, same, 10, 0.1);
    assertTrue(
        because(
                new OnePortCorrection(
                        new OpenReading(List.of(new OpenReading.Point(50, 0, 0, 0))),
                        same,
                        same,
                        10,
                        0.1)
                    .apply(point(50, new Complex(8))))
            .contains("read alike"));
    assertTrue(because(correction.apply(point(50, new Complex(8)))).contains("calibrate again"));
  }

  /** JCGM 100, 4.3.7: half width over the root of 3. */
  @Test
  void toleranceOfOnePercentOnTenOhmIs58MilliohmStandard() {
    assertEquals(0.0577, OnePortCorrection.uncertaintyOfTolerance(10, 0.01), 5e-5);
  }

  private static ImpedancePoint corrected(
      Complex[] inputs, double[] u, double standardOhm, double uStandard) {
    OnePortCorrection correction =
        new OnePortCorrection(
            new OpenReading(
                List.of(
                    new OpenReading.Point(
                        50, inputs[0].getReal(), inputs[0].getImaginary(), u[0]))),
            new ImpedanceCurve(List.of(point(50, inputs[1], u[1]))),
            new ImpedanceCurve(List.of(point(50, inputs[2], u[2]))),
            standardOhm,
            uStandard);
    return found(correction.apply(point(50, inputs[3], u[3])));
  }

  private static ImpedanceCurve curve(double hz, Complex z) {
    return new ImpedanceCurve(List.of(point(hz, z)));
  }

  private static ImpedancePoint point(double hz, Complex z) {
    return new ImpedancePoint(hz, z.getReal(), z.getImaginary(), Optional.empty());
  }

  private static ImpedancePoint point(double hz, Complex z, double u) {
    return new ImpedancePoint(
        hz, z.getReal(), z.getImaginary(), Optional.of(ImpedanceUncertainty.circular(u)));
  }

  @Test
  void directCurrentIsCorrectedByTheLowestReadingsAndStaysReal() {
    Optional<ImpedanceUncertainty> exact = Optional.of(ImpedanceUncertainty.circular(0));
    ImpedanceCurve shorted =
        new ImpedanceCurve(
            List.of(
                new ImpedancePoint(10, 0.05, 0.001, exact),
                new ImpedancePoint(400, 0.2, 0, exact)));
    ImpedanceCurve standard =
        new ImpedanceCurve(
            List.of(
                new ImpedancePoint(10, 10.55, 0.001, exact),
                new ImpedancePoint(400, 11, 0, exact)));
    OnePortCorrection correction =
        new OnePortCorrection(OpenReading.perfect(), shorted, standard, 10, 0.02);
    ImpedanceCurve read =
        new ImpedanceCurve(
            List.of(
                new ImpedancePoint(0, 5.3, 0, exact), new ImpedancePoint(10, 5.3, 0.001, exact)));
    ImpedanceCurve corrected = found(correction.apply(read));
    // By hand: (5.3 - 0.05) x 10 / (10.55 - 0.05) = 5.
    assertEquals(5, corrected.points().get(0).resistanceOhm(), 1e-6);
    assertEquals(0, corrected.points().get(0).reactanceOhm());
    assertEquals(5, corrected.points().get(1).resistanceOhm(), 1e-6);
    assertEquals(0.002, corrected.scaleUncertainty(), 1e-12);
    assertEquals(0, corrected.points().get(1).uncertainty().orElseThrow().standardUncertaintyOhm());
  }
}
