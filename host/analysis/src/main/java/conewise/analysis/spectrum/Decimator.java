package conewise.analysis.spectrum;

import conewise.analysis.sampling.SampledChannel;
import java.util.Arrays;

/**
 * Lowers the sampling rate of a channel while its samples arrive, so that a long file never stands
 * in memory at full rate. A linear-phase low-pass (sinc under a Kaiser window; Kaiser 1974, from
 * memory) keeps the band up to a quarter of the new rate and takes away what would fold into it by
 * 80 dB. Its delay is a whole number of samples and is accounted for in the instants.
 *
 * <p>Voltage and current go through the same filter, so it drops out of their ratio. Not for use by
 * several threads at once.
 */
public final class Decimator {

  /** New intervals that the filter spans, half on each side. */
  private static final int SPAN = 10;

  /** Kaiser's beta for 80 dB: 0.1102 (80 - 8.7). */
  private static final double BETA = 7.857;

  private final int factor;
  private final double[] taps;
  private final double[] recent;
  private long received;
  private double[] output = new double[1024];
  private int produced;

  /**
   * Prepares a decimator.
   *
   * @param factor samples for each that is kept, at least 1 (1 passes all through unchanged)
   */
  public Decimator(int factor) {
    if (factor < 1) {
      throw new IllegalArgumentException("the factor is " + factor + "; it must be at least 1");
    }
    this.factor = factor;
    taps = factor == 1 ? new double[] {1} : kaiserSinc(factor);
    recent = new double[2 * taps.length];
  }

  /** The largest factor that leaves at least five samples a period of the highest frequency. */
  public static int factorFor(double sampleRateHz, double highestHz) {
    return (int) Math.max(1, Math.floor(sampleRateHz / (5 * highestHz)));
  }

  /** Takes the next sample. */
  public void accept(double sample) {
    int length = taps.length;
    int slot = (int) (received % length);
    // Written twice, so that the last samples always lie in one piece.
    recent[slot] = sample;
    recent[slot + length] = sample;
    received++;
    if (received >= length && (received - length) % factor == 0) {
      append(convolve(slot + 1));
    }
  }

  private double convolve(int oldest) {
    double even = 0;
    double odd = 0;
    int i = 0;
    for (; i + 1 < taps.length; i += 2) {
      even += taps[i] * recent[oldest + i];
      odd += taps[i + 1] * recent[oldest + i + 1];
    }
    return i < taps.length ? even + odd + taps[i] * recent[oldest + i] : even + odd;
  }

  private void append(double value) {
    if (produced == output.length) {
      output = Arrays.copyOf(output, 2 * produced);
    }
    output[produced++] = value;
  }

  /** How many samples have come out so far; none before the filter is full. */
  public int produced() {
    return produced;
  }

  /**
   * What came out, on its true instants.
   *
   * @param firstInstantSeconds the instant of the first sample that went in
   * @param intervalSeconds the spacing of the samples that went in
   * @throws IllegalStateException when nothing came out yet
   */
  public SampledChannel channel(double firstInstantSeconds, double intervalSeconds) {
    if (produced == 0) {
      throw new IllegalStateException(
          received
              + " samples went in; at least "
              + taps.length
              + " are needed for one to come out");
    }
    return SampledChannel.of(
        Arrays.copyOf(output, produced),
        firstInstantSeconds + (taps.length - 1) / 2.0 * intervalSeconds,
        factor * intervalSeconds);
  }

  private static double[] kaiserSinc(int factor) {
    int half = SPAN / 2 * factor;
    double[] taps = new double[2 * half + 1];
    double sum = 0;
    for (int i = -half; i <= half; i++) {
      double x = Math.PI * i / factor;
      double edge = i / (double) half;
      double sinc = i == 0 ? 1 : Math.sin(x) / x;
      taps[i + half] = sinc * besselI0(BETA * Math.sqrt(1 - edge * edge));
      sum += taps[i + half];
    }
    for (int i = 0; i < taps.length; i++) {
      taps[i] /= sum;
    }
    return taps;
  }

  /** The modified Bessel function of order 0 by its power series (Abramowitz and Stegun 9.6.12). */
  private static double besselI0(double x) {
    double term = 1;
    double sum = 1;
    for (int k = 1; term > 1e-17 * sum; k++) {
      term *= x * x / (4.0 * k * k);
      sum += term;
    }
    return sum;
  }
}
