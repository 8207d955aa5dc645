package conewise.analysis.sampling;

import static conewise.analysis.sampling.Samples.because;
import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class ToneFitTest {

  private static final double INTERVAL = 128e-6;

  @Test
  void oneToneComesBackWithAmplitudePhaseAndOffset() {
    SampledChannel channel =
        Samples.of(t -> 0.4 + 1.7 * Math.cos(2 * Math.PI * 33.3 * t + 0.6), 1000, 5.25, INTERVAL);
    ToneFit fit = found(ToneFit.of(channel, 33.3));
    assertPhasor(1.7, 0.6, fit.tones().get(0).phasor(), 1e-11);
    assertEquals(0.4, fit.offset(), 1e-11);
    assertTrue(fit.residualVariance() < 1e-22, "left over: " + fit.residualVariance());
  }

  @Test
  void tonesOfAnyFrequencyComeBackFromUnevenRecordLengthsWithDrift() {
    Random random = new Random(11);
    for (int trial = 0; trial < 40; trial++) {
      int tones = 1 + random.nextInt(6);
      double[] hz = new double[tones];
      double[] amplitude = new double[tones];
      double[] phase = new double[tones];
      for (int i = 0; i < tones; i++) {
        hz[i] = 12 + 31 * i + 10 * random.nextDouble();
        amplitude[i] = 0.1 + random.nextDouble();
        phase[i] = 6 * random.nextDouble() - 3;
      }
      double drift = random.nextDouble() - 0.5;
      int count = 900 + random.nextInt(900);
      double first = random.nextDouble();
      SampledChannel channel =
          Samples.of(
              t -> {
                double sum = 2 + drift * t;
                for (int i = 0; i < tones; i++) {
                  sum += amplitude[i] * Math.cos(2 * Math.PI * hz[i] * t + phase[i]);
                }
                return sum;
              },
              count,
              first,
              INTERVAL);
      ToneFit fit = found(ToneFit.of(channel, hz, ToneFit.Baseline.OFFSET_AND_DRIFT));
      assertEquals(drift, fit.driftPerSecond(), 1e-9, "trial " + trial + " of seed 11");
      double middle = first + (count - 1) / 2.0 * INTERVAL;
      assertEquals(2 + drift * middle, fit.offset(), 1e-9, "trial " + trial + " of seed 11");
      for (int i = 0; i < tones; i++) {
        assertPhasor(amplitude[i], phase[i], fit.tones().get(i).phasor(), 1e-9);
      }
    }
  }

  /**
   * Cramer-Rao bound for a sine of known frequency: var A = 2 s^2/N, var phi = 2 s^2/(A^2 N) (Kay,
   * Fundamentals of Statistical Signal Processing, 1993, example 3.14 reduced to known frequency;
   * from memory). 20 000 runs know a variance to 1 % (root of 2/20 000), so 5 % is five of that.
   */
  @Test
  void varianceOfAmplitudeAndPhaseReachesTheCramerRaoBound() {
    long seed = 20261125;
    Random random = new Random(seed);
    int runs = 20_000;
    int n = 200;
    double amplitude = 1.3;
    double deviation = 0.05;
    double hz = 61.7;
    SampledChannel clean =
        Samples.of(t -> amplitude * Math.cos(2 * Math.PI * hz * t + 0.4), n, 0, 1 / 1000.0);
    double a2 = 0;
    double p2 = 0;
    double stated = 0;
    for (int run = 0; run < runs; run++) {
      FittedTone tone =
          found(ToneFit.of(Samples.noisy(clean, deviation, random), hz)).tones().get(0);
      a2 += Math.pow(tone.amplitude() - amplitude, 2);
      p2 += Math.pow(tone.phasor().getArgument() - 0.4, 2);
      stated += Math.pow(tone.standardUncertainty(), 2);
    }
    double bound = 2 * deviation * deviation / n;
    String where = "seed " + seed;
    assertEquals(1, a2 / runs / bound, 0.05, where);
    assertEquals(1, p2 / runs / (bound / (amplitude * amplitude)), 0.05, where);
    assertEquals(1, stated / runs / bound, 0.05, where);
  }

  @Test
  void statedCovarianceOfCloseTonesMatchesTheScatter() {
    long seed = 5;
    Random random = new Random(seed);
    int runs = 6000;
    int n = 150;
    double[] hz = {20, 24.5};
    SampledChannel clean =
        Samples.of(
            t -> Math.cos(2 * Math.PI * 20 * t) + 0.5 * Math.sin(2 * Math.PI * 24.5 * t),
            n,
            0.3,
            1 / 1000.0);
    FittedTone truth = found(ToneFit.of(clean, hz)).tones().get(1);
    double rr = 0;
    double ii = 0;
    double ri = 0;
    double statedRr = 0;
    double statedIi = 0;
    double statedRi = 0;
    for (int run = 0; run < runs; run++) {
      FittedTone tone = found(ToneFit.of(Samples.noisy(clean, 0.1, random), hz)).tones().get(1);
      Complex off = tone.phasor().subtract(truth.phasor());
      rr += off.getReal() * off.getReal() / runs;
      ii += off.getImaginary() * off.getImaginary() / runs;
      ri += off.getReal() * off.getImaginary() / runs;
      statedRr += tone.varianceReal() / runs;
      statedIi += tone.varianceImaginary() / runs;
      statedRi += tone.covariance() / runs;
    }
    // 6000 runs know a variance to 1.8 %; 8 % is over four of that.
    assertEquals(1, statedRr / rr, 0.08, "seed " + seed);
    assertEquals(1, statedIi / ii, 0.08, "seed " + seed);
    assertEquals(statedRi, ri, 0.08 * Math.sqrt(rr * ii), "seed " + seed);
  }

  @Test
  void humNextToAToneRaisesItsVarianceButNotThatOfAFarOne() {
    Random random = new Random(3);
    SampledChannel channel =
        Samples.noisy(
            Samples.of(
                t ->
                    Math.cos(2 * Math.PI * 48 * t)
                        + Math.cos(2 * Math.PI * 300 * t)
                        + 0.02 * Math.cos(2 * Math.PI * 50.3 * t),
                8000,
                0,
                1 / 8000.0),
            0.01,
            random);
    ToneFit fit = found(ToneFit.of(channel, 48, 300));
    assertTrue(fit.tones().get(0).noiseVariance() > 10 * fit.residualVariance(), "seed 3");
    assertEquals(fit.residualVariance(), fit.tones().get(1).noiseVariance(), 0, "seed 3");
  }

  @Test
  void delayTurnsThePhaseOnly() {
    for (double first : new double[] {-3, 0, 1e-4, 12.5}) {
      SampledChannel channel =
          Samples.of(t -> Math.cos(2 * Math.PI * 77 * t - 1), 777, first, INTERVAL);
      assertPhasor(1, -1, found(ToneFit.of(channel, 77)).tones().get(0).phasor(), 1e-10);
    }
  }

  @Test
  void fitIsLinearInTheSamples() {
    long seed = 77;
    Random random = new Random(seed);
    double[] a = random.doubles(500, -1, 1).toArray();
    double[] b = random.doubles(500, -1, 1).toArray();
    double[] mix = new double[500];
    for (int k = 0; k < 500; k++) {
      mix[k] = 3 * a[k] - 0.5 * b[k];
    }
    double[] hz = {31, 57.5, 203};
    ToneFit fitA = found(ToneFit.of(SampledChannel.of(a, 0.1, 1e-3), hz));
    ToneFit fitB = found(ToneFit.of(SampledChannel.of(b, 0.1, 1e-3), hz));
    ToneFit fitMix = found(ToneFit.of(SampledChannel.of(mix, 0.1, 1e-3), hz));
    for (int i = 0; i < 3; i++) {
      Complex expected =
          fitA.tones()
              .get(i)
              .phasor()
              .multiply(3)
              .subtract(fitB.tones().get(i).phasor().multiply(0.5));
      assertEquals(
          0, expected.subtract(fitMix.tones().get(i).phasor()).abs(), 1e-12, "seed " + seed);
    }
  }

  @Test
  void aLargeOffsetCostsNoDigits() {
    SampledChannel channel =
        Samples.of(t -> 1e6 + 1e-3 * Math.cos(2 * Math.PI * 40 * t), 4000, 0, INTERVAL);
    assertEquals(1e-3, found(ToneFit.of(channel, 40)).tones().get(0).amplitude(), 1e-10);
  }

  @Test
  void constantSamplesGiveAToneOfNothing() {
    FittedTone tone =
        found(ToneFit.of(SampledChannel.of(new double[] {5, 5, 5, 5, 5, 5}, 0, 0.01), 20))
            .tones()
            .get(0);
    assertEquals(0, tone.amplitude(), 1e-15);
    assertEquals(0, tone.standardUncertainty(), 1e-15);
  }

  @Test
  void whatCannotBeFittedIsRefusedInWords() {
    SampledChannel one = SampledChannel.of(new double[] {1}, 0, 1e-3);
    SampledChannel many = Samples.of(t -> Math.cos(2 * Math.PI * 50 * t), 1000, 0, 1e-3);
    assertTrue(because(ToneFit.of(one, 50)).contains("1 samples are too few"));
    assertTrue(because(ToneFit.of(many)).contains("no frequency"));
    assertTrue(because(ToneFit.of(many, 500)).contains("half the sampling rate, 500"));
    assertTrue(because(ToneFit.of(many, -3)).contains("-3"));
    assertTrue(because(ToneFit.of(many, Double.NaN)).contains("NaN"));
    assertTrue(
        because(ToneFit.of(many, 50, 50)).contains("cannot tell 50.0000 Hz from 50.0000 Hz"));
    assertTrue(because(ToneFit.of(many, 80, 50, 50.0001)).contains("50.0000 Hz from 50.0001 Hz"));
    assertTrue(because(ToneFit.of(many, 1e-5)).contains("record for longer"));
  }

  private static void assertPhasor(double amplitude, double phase, Complex got, double tolerance) {
    Complex wanted = new Complex(amplitude * Math.cos(phase), amplitude * Math.sin(phase));
    assertEquals(0, got.subtract(wanted).abs(), tolerance, "wanted " + wanted + ", got " + got);
  }
}
