package conewise.analysis.excitation;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/**
 * Finds phases that give a sum of equal tones a low peak: starts from Schroeder's phases (IEEE
 * Trans. Information Theory 16, 85, 1970; from memory), then clips the wave a little, keeps the
 * clipped wave's phases, and starts again (time-frequency swapping; Van der Ouderaa, Schoukens and
 * Renneboog, IEEE Trans. Instrumentation and Measurement 37, 145, 1988; from memory).
 */
final class CrestReduction {

  private static final int ROUNDS = 400;

  /** The part of the peak that is left at first and at last; between, it rises evenly. */
  private static final double CLIP_FIRST = 0.75;

  private static final double CLIP_LAST = 0.97;

  private final FastFourierTransformer fourier =
      new FastFourierTransformer(DftNormalization.STANDARD);
  private final int[] lines;
  private final double[] amplitudes;
  private final double[] phases;
  private final int points;
  private double[] best = new double[0];
  private double bestPeak = Double.POSITIVE_INFINITY;

  CrestReduction(List<Integer> chosen, int points, long seed) {
    this.points = points;
    lines = chosen.stream().mapToInt(Integer::intValue).toArray();
    amplitudes = new double[lines.length];
    phases = new double[lines.length];
    Random random = new Random(seed);
    for (int i = 0; i < lines.length; i++) {
      amplitudes[i] = 1 / droop(lines[i]);
      phases[i] = -Math.PI * i * (i + 1) / lines.length + 0.3 * random.nextGaussian();
    }
  }

  /** The linear interpolation between table points weakens a line by sinc squared. */
  private double droop(int line) {
    double x = Math.PI * line / points;
    return Math.pow(Math.sin(x) / x, 2);
  }

  /** One period of the wave with the lowest peak found, in arbitrary units. */
  double[] wave() {
    for (int round = 0; round < ROUNDS; round++) {
      double[] wave = synthesize();
      double peak = keepIfBest(wave);
      double limit = peak * (CLIP_FIRST + (CLIP_LAST - CLIP_FIRST) * round / ROUNDS);
      for (int k = 0; k < points; k++) {
        wave[k] = Math.max(-limit, Math.min(limit, wave[k]));
      }
      Complex[] spectrum = fourier.transform(wave, TransformType.FORWARD);
      for (int i = 0; i < lines.length; i++) {
        phases[i] = spectrum[lines[i]].getArgument();
      }
    }
    keepIfBest(synthesize());
    return best;
  }

  private double keepIfBest(double[] wave) {
    double peak = 0;
    for (double value : wave) {
      peak = Math.max(peak, Math.abs(value));
    }
    if (peak < bestPeak) {
      bestPeak = peak;
      best = wave.clone();
    }
    return peak;
  }

  private double[] synthesize() {
    Complex[] spectrum = new Complex[points];
    Arrays.fill(spectrum, Complex.ZERO);
    for (int i = 0; i < lines.length; i++) {
      spectrum[lines[i]] =
          new Complex(amplitudes[i] * Math.cos(phases[i]), amplitudes[i] * Math.sin(phases[i]));
    }
    Complex[] signal = fourier.transform(spectrum, TransformType.INVERSE);
    double[] wave = new double[points];
    for (int k = 0; k < points; k++) {
      wave[k] = signal[k].getReal();
    }
    return wave;
  }
}
