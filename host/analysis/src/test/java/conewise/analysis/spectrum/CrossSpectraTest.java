package conewise.analysis.spectrum;

import static conewise.analysis.sampling.Samples.because;
import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.Samples;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class CrossSpectraTest {

  private static final double R = 6;
  private static final double L = 4e-3;

  /**
   * Noise through a resistor and an inductor: the current is white noise smoothed by a slow
   * recursion, so that v = R i + L di/dt has a derivative known in closed form from the recursion's
   * continuous interpolation. Here instead the two-point form is exact: v[k] = R (i[k] + i[k-1])/2
   * + L (i[k] - i[k-1])/h at the middle instant, whose impedance by the z transform is R cos(wh/2)
   * + j (2L/h) sin(wh/2).
   */
  private static Capture noiseThroughCoil(int count, double h, long seed, double noiseVolt) {
    Random random = new Random(seed);
    double[] i = new double[count + 1];
    double[] v = new double[count];
    for (int k = 1; k <= count; k++) {
      i[k] = 0.6 * i[k - 1] + 0.1 * random.nextGaussian();
    }
    double[] after = new double[count];
    for (int k = 0; k < count; k++) {
      v[k] = R * (i[k + 1] + i[k]) / 2 + L * (i[k + 1] - i[k]) / h;
      v[k] += noiseVolt * random.nextGaussian();
      after[k] = i[k];
    }
    return new Capture(SampledChannel.of(v, h / 2, h), SampledChannel.of(after, 0, h));
  }

  private static Complex coilAt(double hz, double h) {
    double half = Math.PI * hz * h;
    return new Complex(R * Math.cos(half), 2 * L / h * Math.sin(half));
  }

  @Test
  void noiseGivesTheCoilWithTheHalfSampleDelayRemoved() {
    double h = 1 / 8000.0;
    SpectralEstimate estimate = found(CrossSpectra.estimate(noiseThroughCoil(240_000, h, 6, 1e-4)));
    assertEquals(SpectralEstimate.Method.AVERAGED_SEGMENTS, estimate.method());
    assertTrue(estimate.curve().points().size() > 500);
    for (ImpedancePoint point : estimate.curve().points()) {
      Complex wanted = coilAt(point.frequencyHz(), h);
      assertEquals(wanted.getReal(), point.resistanceOhm(), 0.02, "at " + point.frequencyHz());
      assertEquals(wanted.getImaginary(), point.reactanceOhm(), 0.02, "at " + point.frequencyHz());
    }
  }

  /** Bendat and Piersol's variance, held against the scatter over many captures. */
  @Test
  void statedRandomVarianceMatchesTheScatter() {
    double h = 1 / 1000.0;
    int runs = 100;
    double scatter = 0;
    double stated = 0;
    int counted = 0;
    for (int run = 0; run < runs; run++) {
      Capture capture = noiseThroughCoil(14_000, h, 1000 + run, 0.25);
      AveragedSpectra spectra =
          AveragedSpectra.overSegments(capture, new Interval(50, 100)).orElseThrow();
      for (int i = 0; i < spectra.size(); i += 3) {
        Complex wanted = coilAt(spectra.frequencyHz(i), h);
        Complex off = spectra.sums(i).impedance().subtract(wanted);
        scatter += Math.pow(off.abs(), 2) / 2;
        stated += spectra.sums(i).randomVariance(spectra.averages());
        counted++;
      }
    }
    // Over a thousand nearly independent squared errors of two parts each: known to about 3 %; the
    // formula itself is of first order in 1/averages (25 here), so 10 %.
    assertTrue(counted > 1000, counted + " errors");
    assertEquals(1, stated / scatter, 0.10, counted + " errors, seeds from 1000");
  }

  @Test
  void combOfOnePeriodIsFoundAndFittedExactly() {
    double[] hz = Comb.standard().frequenciesHz();
    Random random = new Random(9);
    double[] phase = random.doubles(hz.length, 0, 6).toArray();
    checkTones(hz, phase, 8192, 128e-6, 64e-6, 1e-6);
  }

  @Test
  void aFewTonesOfUnknownFrequencyAreFoundAndFitted() {
    checkTones(
        new double[] {17.313, 41.87, 112.01, 333.3},
        new double[] {0, 1, 2, 3},
        48_000 * 5,
        1 / 48_000.0,
        0,
        1e-4);
  }

  private static void checkTones(
      double[] hz, double[] phase, int count, double h, double delay, double tolerance) {
    DoubleUnaryOperator ampere = t -> sum(hz, phase, t, 1, 0);
    DoubleUnaryOperator volt = t -> sum(hz, phase, t, R, L);
    Capture capture =
        new Capture(Samples.of(volt, count, 0.2, h), Samples.of(ampere, count, 0.2 + delay, h));
    SpectralEstimate estimate = found(CrossSpectra.estimate(capture));
    assertEquals(SpectralEstimate.Method.STEADY_TONES, estimate.method());
    int expected = 0;
    for (double f : hz) {
      expected += f >= 10 && f <= 400 ? 1 : 0;
    }
    assertEquals(expected, estimate.curve().points().size());
    for (ImpedancePoint point : estimate.curve().points()) {
      assertEquals(R, point.resistanceOhm(), tolerance);
      assertEquals(2 * Math.PI * point.frequencyHz() * L, point.reactanceOhm(), tolerance);
    }
  }

  private static double sum(double[] hz, double[] phase, double t, double r, double l) {
    double sum = 0;
    for (int k = 0; k < hz.length; k++) {
      double w = 2 * Math.PI * hz[k];
      sum += r * Math.cos(w * t + phase[k]) - l * w * Math.sin(w * t + phase[k]);
    }
    return sum;
  }

  /** i = sin(phi(t)), so v = R i + L phi'(t) cos(phi(t)): exact at each instant. */
  @Test
  void sweptSineGivesTheCoilFromAveragedLines() {
    double duration = 12;
    double rate = Math.log(600 / 6.0) / duration;
    DoubleUnaryOperator phi = t -> 2 * Math.PI * 6 / rate * (Math.exp(rate * t) - 1);
    DoubleUnaryOperator ampere = t -> Math.sin(phi.applyAsDouble(t));
    DoubleUnaryOperator volt =
        t ->
            R * Math.sin(phi.applyAsDouble(t))
                + L * 2 * Math.PI * 6 * Math.exp(rate * t) * Math.cos(phi.applyAsDouble(t));
    double h = 1 / 44_100.0;
    int count = (int) (duration / h);
    Capture capture =
        new Capture(Samples.of(volt, count, 0, h), Samples.of(ampere, count, 3e-6, h));
    SpectralEstimate estimate = found(CrossSpectra.estimate(capture));
    assertEquals(SpectralEstimate.Method.AVERAGED_LINES, estimate.method());
    assertTrue(estimate.curve().points().size() > 300);
    for (ImpedancePoint point : estimate.curve().points()) {
      assertEquals(R, point.resistanceOhm(), 0.06, "at " + point.frequencyHz());
      assertEquals(
          2 * Math.PI * point.frequencyHz() * L,
          point.reactanceOhm(),
          0.06,
          "at " + point.frequencyHz());
    }
  }

  @Test
  void channelsThatHaveNothingInCommonGiveNoResult() {
    Random random = new Random(12);
    Capture capture =
        new Capture(
            SampledChannel.of(random.doubles(40_000, -1, 1).toArray(), 0, 5e-4),
            SampledChannel.of(random.doubles(40_000, -1, 1).toArray(), 0, 5e-4));
    assertTrue(because(CrossSpectra.estimate(capture)).contains("the coherence is"), "seed 12");
  }

  @Test
  void silenceShortAndSlowRecordsGiveNoResult() {
    SampledChannel silent = SampledChannel.of(new double[20_000], 0, 5e-4);
    assertTrue(
        because(CrossSpectra.estimate(new Capture(silent, silent)))
            .contains("no frequency could be read"));
    SampledChannel one = SampledChannel.of(new double[] {1}, 0, 5e-4);
    assertTrue(because(CrossSpectra.estimate(new Capture(one, one))).contains("too short"));
    SampledChannel slow = SampledChannel.of(new double[500], 0, 2e-3);
    assertTrue(because(CrossSpectra.estimate(new Capture(slow, slow))).contains("250"));
    assertThrows(
        IllegalArgumentException.class,
        () -> CrossSpectra.estimate(new Capture(one, one), new Interval(0, 100)));
  }

  @Test
  void everyLengthOfRecordGivesAnOutcomeAndNeverThrows() {
    long seed = 40;
    Random random = new Random(seed);
    for (int trial = 0; trial < 40; trial++) {
      int count = 1 + random.nextInt(trial < 30 ? 200 : 9_000);
      double h = Math.pow(10, -3 - 1.5 * random.nextDouble());
      SampledChannel v = SampledChannel.of(random.doubles(count, -1, 1).toArray(), 0, h);
      SampledChannel i = SampledChannel.of(random.doubles(count, -1, 1).toArray(), 0, h);
      CrossSpectra.estimate(new Capture(v, i));
      CrossSpectra.estimate(new Capture(v, v));
    }
  }

  @Test
  void decimationKeepsTheBandAndItsInstantsAndRemovesWhatWouldFold() {
    Decimator decimator = new Decimator(24);
    for (int k = 0; k < 96_000; k++) {
      double t = k / 48_000.0;
      decimator.accept(Math.cos(2 * Math.PI * 390 * t + 0.5) + Math.cos(2 * Math.PI * 1690 * t));
    }
    SampledChannel slow = decimator.channel(0, 1 / 48_000.0);
    assertEquals(1 / 2000.0, slow.intervalSeconds(), 1e-15);
    for (int k = 0; k < slow.length(); k++) {
      double t = slow.firstInstantSeconds() + k * slow.intervalSeconds();
      assertEquals(Math.cos(2 * Math.PI * 390 * t + 0.5), slow.values()[k], 4e-4, "sample " + k);
    }
  }
}
