package conewise.analysis.spectrum;

import conewise.analysis.outcome.Interval;
import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/** Finds sharp lines in a channel's spectrum and where exactly they stand. */
final class TonePeaks {

  /** A tone under the window used spans this many lines on each side of its own. */
  static final int APART = 4;

  /** The valleys on both sides of a tone lie at least this far below it in power: 26 dB. */
  private static final double VALLEY = 1 / 400.0;

  /** Weaker than this part of the strongest in power: not looked at. 50 dB. */
  private static final double WEAKEST = 1e-5;

  /** Rounds of refinement; each brings the frequency error down by far more than tenfold. */
  private static final int ROUNDS = 4;

  private TonePeaks() {}

  /** The frequencies of steady tones in a band, in hertz, rising; empty when there are none. */
  static double[] in(SampledChannel channel, Interval bandHz) {
    int length = channel.length();
    int padded = Integer.highestOneBit(length) * 4;
    double[] power = windowedPower(channel, padded);
    double lineHz = 1 / (padded * channel.intervalSeconds());
    int reach = (int) Math.ceil(APART * (double) padded / length);
    int first = (int) Math.max(reach + 1, Math.ceil(bandHz.low() / lineHz));
    int last = (int) Math.min(padded / 2 - reach - 2, Math.floor(bandHz.high() / lineHz));
    double strongest = 0;
    for (int k = first; k <= last; k++) {
      strongest = Math.max(strongest, power[k]);
    }
    List<Double> tones = new ArrayList<>();
    for (int k = first; k <= last; k++) {
      if (power[k] > WEAKEST * strongest && isSharp(power, k, reach)) {
        tones.add(refine(channel, k * lineHz));
      }
    }
    return tones.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private static boolean isSharp(double[] power, int k, int reach) {
    for (int away = 1; away <= reach; away++) {
      if (power[k - away] > power[k] || power[k + away] >= power[k]) {
        return false;
      }
    }
    return power[k - reach] < VALLEY * power[k] && power[k + reach] < VALLEY * power[k];
  }

  /** Blackman-Harris, four terms, side lobes 92 dB down (Harris, Proc. IEEE 66, 51, 1978). */
  private static double[] windowedPower(SampledChannel channel, int padded) {
    int length = channel.length();
    double mean = Arrays.stream(channel.values()).average().orElseThrow();
    double[] windowed = new double[padded];
    for (int k = 0; k < length; k++) {
      double x = 2 * Math.PI * (k + 0.5) / length;
      double window =
          0.35875 - 0.48829 * Math.cos(x) + 0.14128 * Math.cos(2 * x) - 0.01168 * Math.cos(3 * x);
      windowed[k] = window * (channel.values()[k] - mean);
    }
    Complex[] spectrum =
        new FastFourierTransformer(DftNormalization.STANDARD)
            .transform(windowed, TransformType.FORWARD);
    double[] power = new double[padded / 2];
    for (int k = 0; k < power.length; k++) {
      power[k] = Math.pow(spectrum[k].abs(), 2);
    }
    return power;
  }

  /** The phase gained from one half of the record to the other tells the frequency's error. */
  private static double refine(SampledChannel channel, double startHz) {
    int half = channel.length() / 2;
    double hz = startHz;
    for (int round = 0; round < ROUNDS; round++) {
      double radians = 2 * Math.PI * hz * channel.intervalSeconds();
      Complex early = demodulate(channel.values(), 0, half, radians);
      Complex late = demodulate(channel.values(), half, half, radians);
      double gained = late.multiply(early.conjugate()).getArgument();
      hz += gained / (2 * Math.PI * half * channel.intervalSeconds());
    }
    return hz;
  }

  private static Complex demodulate(double[] samples, int start, int count, double radians) {
    double real = 0;
    double imaginary = 0;
    for (int k = 0; k < count; k++) {
      double window = 0.5 - 0.5 * Math.cos(2 * Math.PI * (k + 0.5) / count);
      double angle = radians * (start + k);
      real += window * samples[start + k] * Math.cos(angle);
      imaginary -= window * samples[start + k] * Math.sin(angle);
    }
    return new Complex(real, imaginary);
  }
}
