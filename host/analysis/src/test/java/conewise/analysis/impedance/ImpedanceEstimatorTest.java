package conewise.analysis.impedance;

import static conewise.analysis.sampling.Samples.because;
import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.excitation.Comb;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.Samples;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class ImpedanceEstimatorTest {

  private static final double PAIR = 128e-6;
  private static final double DELAY = 64e-6;

  /** v = R i + L di/dt, in time: i = cos wt. */
  @Test
  void resistorAndInductorInSeriesReadRPlusJwl() {
    double w = 2 * Math.PI * 83;
    Capture capture =
        capture(
            t -> 5.6 * Math.cos(w * t) - 1.1e-3 * w * Math.sin(w * t), t -> Math.cos(w * t), 4096);
    assertZ(new Complex(5.6, w * 1.1e-3), capture, 83);
  }

  /** i = v/R + C dv/dt, in time: v = cos wt; Z = R/(1 + jwRC). */
  @Test
  void resistorAndCapacitorSideBySideReadTheirClosedForm() {
    double w = 2 * Math.PI * 211;
    double r = 8;
    double c = 100e-6;
    Capture capture =
        capture(t -> Math.cos(w * t), t -> Math.cos(w * t) / r - c * w * Math.sin(w * t), 3000);
    assertZ(new Complex(r).divide(new Complex(1, w * r * c)), capture, 211);
  }

  /**
   * A parallel resonant circuit at its resonance: R alone, whatever L and C are; beside it, Y = 1/R
   * + jwC + 1/(jwL) (any circuits text). i is built in time from v = cos wt.
   */
  @Test
  void resonantCircuitReadsItsClosedFormOnAndBesideResonance() {
    double r = 40;
    double l = 25e-3;
    double resonance = 32;
    double c = 1 / (Math.pow(2 * Math.PI * resonance, 2) * l);
    for (double hz : new double[] {24, 32, 45.5}) {
      double w = 2 * Math.PI * hz;
      Capture capture =
          capture(
              t -> Math.cos(w * t),
              t -> Math.cos(w * t) / r - c * w * Math.sin(w * t) + Math.sin(w * t) / (w * l),
              5000);
      assertZ(new Complex(1 / r, w * c - 1 / (w * l)).reciprocal(), capture, hz);
    }
  }

  /** Noise shared by channels that are sampled together, as by two converters in step. */
  @Test
  void statedUncertaintyCoversTheTruthAsOftenAsItShould() {
    long seed = 99;
    Random random = new Random(seed);
    Complex z = new Complex(6, 3);
    int runs = 3000;
    double chiSquared = 0;
    for (int run = 0; run < runs; run++) {
      double w = 2 * Math.PI * 40;
      SampledChannel v =
          Samples.of(
              t -> z.getReal() * Math.cos(w * t) - z.getImaginary() * Math.sin(w * t),
              400,
              0,
              1e-3);
      SampledChannel i = Samples.of(t -> Math.cos(w * t), 400, 0, 1e-3);
      double[] shared = new double[400];
      for (int k = 0; k < 400; k++) {
        shared[k] = random.nextGaussian();
        v.values()[k] += 0.2 * shared[k] + 0.1 * random.nextGaussian();
        i.values()[k] += 0.03 * shared[k] + 0.02 * random.nextGaussian();
      }
      ImpedancePoint point =
          found(ImpedanceEstimator.estimate(new Capture(v, i), 40)).curve().points().get(0);
      ImpedanceUncertainty u = point.uncertainty().orElseThrow();
      double dr = point.resistanceOhm() - 6;
      double dx = point.reactanceOhm() - 3;
      double determinant =
          u.varianceResistance() * u.varianceReactance() - u.covariance() * u.covariance();
      chiSquared +=
          (dr * dr * u.varianceReactance()
                  - 2 * dr * dx * u.covariance()
                  + dx * dx * u.varianceResistance())
              / determinant
              / runs;
    }
    // Mean of chi-squared with 2 degrees of freedom is 2, its deviation 2/sqrt(runs) = 0.037; the
    // noise is known from 400 samples only, worth 1 %, so 0.15 is four deviations.
    assertEquals(2, chiSquared, 0.15, "seed " + seed);
  }

  @Test
  void combThroughAQuickSweepReadsAResonanceAtEachLine() {
    Comb comb = Comb.standard();
    double[] hz = comb.frequenciesHz();
    Random random = new Random(4);
    double[] phase = random.doubles(hz.length, 0, 6).toArray();
    double c = 1e-3;
    double l = 30e-3;
    DoubleUnaryOperator volt =
        t -> {
          double sum = 0;
          for (int k = 0; k < hz.length; k++) {
            sum += Math.cos(2 * Math.PI * hz[k] * t + phase[k]);
          }
          return sum;
        };
    DoubleUnaryOperator ampere =
        t -> {
          double sum = 0;
          for (int k = 0; k < hz.length; k++) {
            double w = 2 * Math.PI * hz[k];
            sum +=
                Math.cos(w * t + phase[k]) / 20
                    - (c * w - 1 / (w * l)) * Math.sin(w * t + phase[k]);
          }
          return sum;
        };
    ImpedanceEstimate estimate =
        found(ImpedanceEstimator.estimate(capture(volt, ampere, 8192), hz));
    assertEquals(hz.length, estimate.curve().points().size());
    for (ImpedancePoint point : estimate.curve().points()) {
      double w = 2 * Math.PI * point.frequencyHz();
      Complex z = new Complex(1 / 20.0, w * c - 1 / (w * l)).reciprocal();
      assertEquals(z.getReal(), point.resistanceOhm(), 1e-8);
      assertEquals(z.getImaginary(), point.reactanceOhm(), 1e-8);
    }
  }

  @Test
  void humFittedBesideDoesNotDisturbItsNeighbours() {
    DoubleUnaryOperator hum = t -> 0.3 * Math.cos(2 * Math.PI * 50.1 * t);
    DoubleUnaryOperator drive = t -> Math.cos(2 * Math.PI * 49 * t);
    Capture capture =
        capture(
            t -> 4 * drive.applyAsDouble(t) + hum.applyAsDouble(t),
            t -> drive.applyAsDouble(t) + 0.02 * hum.applyAsDouble(t),
            8192);
    ImpedancePoint point =
        found(ImpedanceEstimator.estimate(capture, new double[] {49}, new double[] {50.1}))
            .curve()
            .points()
            .get(0);
    assertEquals(4, point.resistanceOhm(), 1e-9);
    assertEquals(0, point.reactanceOhm(), 1e-9);
  }

  @Test
  void aFrequencyWithoutCurrentIsLeftOutAndSaid() {
    Random random = new Random(8);
    SampledChannel v =
        Samples.noisy(Samples.of(t -> Math.cos(2 * Math.PI * 50 * t), 2000, 0, 1e-3), 1e-3, random);
    SampledChannel i =
        Samples.noisy(
            Samples.of(t -> 0.1 * Math.cos(2 * Math.PI * 50 * t), 2000, 0, 1e-3), 1e-3, random);
    ImpedanceEstimate estimate = found(ImpedanceEstimator.estimate(new Capture(v, i), 90, 50));
    assertEquals(1, estimate.curve().points().size(), "seed 8");
    assertEquals(90, estimate.leftOut().get(0).frequencyHz());
    assertTrue(estimate.leftOut().get(0).because().contains("must be at least 10 times"));
    assertTrue(
        because(ImpedanceEstimator.estimate(new Capture(v, i), 90))
            .contains("too small everywhere"));
  }

  @Test
  void silenceAndSingleSamplesGiveNoResult() {
    SampledChannel none = SampledChannel.of(new double[500], 0, 1e-3);
    assertTrue(
        because(ImpedanceEstimator.estimate(new Capture(none, none), 50)).contains("too small"));
    SampledChannel one = SampledChannel.of(new double[1], 0, 1e-3);
    assertTrue(
        because(ImpedanceEstimator.estimate(new Capture(one, one), 50)).startsWith("voltage: "));
  }

  @Test
  void scalingBothChannelsLeavesTheImpedanceAndScalingOneScalesIt() {
    long seed = 21;
    Random random = new Random(seed);
    double[] v = random.doubles(600, -1, 1).toArray();
    double[] i = random.doubles(600, -1, 1).toArray();
    for (int k = 0; k < 600; k++) {
      v[k] += 9 * Math.cos(0.3 * k);
      i[k] += 9 * Math.sin(0.3 * k + 1);
    }
    double hz = 0.3 / (2 * Math.PI * 1e-3);
    ImpedancePoint plain = pointOf(v, i, hz, 1, 1);
    ImpedancePoint both = pointOf(v, i, hz, 7, 7);
    ImpedancePoint one = pointOf(v, i, hz, 7, 1);
    assertEquals(plain.resistanceOhm(), both.resistanceOhm(), 1e-12, "seed " + seed);
    assertEquals(7 * plain.reactanceOhm(), one.reactanceOhm(), 1e-12, "seed " + seed);
    assertEquals(
        49 * plain.uncertainty().orElseThrow().varianceResistance(),
        one.uncertainty().orElseThrow().varianceResistance(),
        1e-9,
        "seed " + seed);
  }

  @Test
  void dcResistanceComesFromTheDifferenceOfTwoLevels() {
    long seed = 2;
    Random random = new Random(seed);
    Capture low = steady(0.05 - 0.4, 0.01 - 0.1, random);
    Capture high = steady(0.05 + 0.4, 0.01 + 0.1, random);
    ImpedancePoint point = found(ImpedanceEstimator.dcResistance(low, high));
    double u = Math.sqrt(point.uncertainty().orElseThrow().varianceResistance());
    assertEquals(0, point.frequencyHz());
    assertEquals(4, point.resistanceOhm(), 4 * u, "seed " + seed);
    assertTrue(u < 0.01, "u " + u);
    assertTrue(because(ImpedanceEstimator.dcResistance(low, low)).contains("no DC resistance"));
  }

  private static Capture steady(double volt, double ampere, Random random) {
    return new Capture(
        Samples.noisy(Samples.of(t -> volt, 1000, 0, PAIR), 1e-2, random),
        Samples.noisy(Samples.of(t -> ampere, 1000, DELAY, PAIR), 1e-3, random));
  }

  private static ImpedancePoint pointOf(
      double[] v, double[] i, double hz, double scaleV, double scaleI) {
    double[] volt = java.util.Arrays.stream(v).map(x -> scaleV * x).toArray();
    double[] ampere = java.util.Arrays.stream(i).map(x -> scaleI * x).toArray();
    return found(
            ImpedanceEstimator.estimate(
                new Capture(SampledChannel.of(volt, 0, 1e-3), SampledChannel.of(ampere, 0, 1e-3)),
                hz))
        .curve()
        .points()
        .get(0);
  }

  private static Capture capture(DoubleUnaryOperator volt, DoubleUnaryOperator ampere, int count) {
    return new Capture(
        Samples.of(volt, count, 0.7, PAIR), Samples.of(ampere, count, 0.7 + DELAY, PAIR));
  }

  private static void assertZ(Complex wanted, Capture capture, double hz) {
    ImpedancePoint point = found(ImpedanceEstimator.estimate(capture, hz)).curve().points().get(0);
    assertEquals(wanted.getReal(), point.resistanceOhm(), 1e-9);
    assertEquals(wanted.getImaginary(), point.reactanceOhm(), 1e-9);
  }
}
