package conewise.jig.sweep;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.FittedTone;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.ToneFit;
import java.util.Arrays;
import java.util.List;

/**
 * Two periods of one periodic wave, which must be alike but for noise and hum. A knock, a slammed
 * door or a jumping clip makes them differ. Looking at what a fit of the comb leaves over would not
 * do: the lines stand so dense that they take up most of what a knock brings.
 *
 * @param whole both periods
 * @param frames frames in one period
 */
record TwoPeriods(Capture whole, int frames) {

  /**
   * What two periods may differ by, as a part of the signal's effective value: an impedance that
   * wanders by this much within a record is still known to about half a percent.
   */
  static final double MOST_UNLIKE = 0.007;

  /** A difference that is not this many times its white part is noise. */
  private static final double MORE_THAN_NOISE = 1.5;

  /** With fewer frames a period there is no telling noise from a hit. */
  private static final int FRAMES_MIN = 512;

  /** So many tones in a row are looked at together: a box still ringing is strong in several. */
  private static final int ROW = 8;

  /**
   * What the power of a row may be of that of noise alone. Chance passes it in one record of 200
   * (the mean of 8 squared amplitudes passes 3 in 5 of 100 000 rows, chi-square over 16 degrees of
   * freedom); what stays unseen moves an impedance by no more than its noise does.
   */
  private static final double MOST_IN_ROW = 3;

  /** Both mains frequencies and their harmonics, which do not repeat with the comb. */
  private static final double[] HUM_HZ = {50, 60, 100, 120, 150, 180, 200, 240, 250, 300};

  /**
   * What is measured: both periods, which halves the noise's power, or the second alone where the
   * box had not settled in the first.
   *
   * @param frequenciesHz the tones played, in hertz
   */
  Capture measured(double[] frequenciesHz) {
    boolean settled =
        frames >= FRAMES_MIN
            && settled(whole.voltageVolt(), frequenciesHz)
            && settled(whole.currentAmpere(), frequenciesHz);
    return settled ? whole : second();
  }

  /** The second period, which is the better settled. */
  Capture second() {
    return new Capture(second(whole.voltageVolt()), second(whole.currentAmpere()));
  }

  private SampledChannel second(SampledChannel channel) {
    return new SampledChannel(
        Arrays.copyOfRange(channel.values(), frames, 2 * frames),
        channel.firstInstantSeconds() + frames * channel.intervalSeconds(),
        channel.intervalSeconds(),
        channel.lowRail(),
        channel.highRail());
  }

  /** True when something other than noise and hum makes the periods differ. */
  boolean wasHit() {
    return unlike() > MOST_UNLIKE;
  }

  /**
   * By how much the periods differ beyond noise and hum, the worse of voltage and current: the
   * effective value of their difference over the signal's.
   */
  double unlike() {
    if (frames < FRAMES_MIN) {
      return 0;
    }
    return Math.max(unlike(whole.voltageVolt()), unlike(whole.currentAmpere()));
  }

  private double unlike(SampledChannel channel) {
    double[] values = channel.values();
    double[] left = difference(channel);
    double white = white(left);
    double power = power(left, 0);
    if (power <= MORE_THAN_NOISE * white) {
      return 0;
    }
    double mean = Arrays.stream(values).average().orElseThrow();
    return Math.sqrt((power - white) / power(values, mean));
  }

  /** Whether the tones stand alike in both periods, so far as their noise lets one see. */
  private boolean settled(SampledChannel channel, double[] frequenciesHz) {
    double[] left = difference(channel);
    SampledChannel differing = SampledChannel.of(left, 0, channel.intervalSeconds());
    if (!(ToneFit.of(differing, frequenciesHz) instanceof Outcome.Found<ToneFit> found)) {
      return false;
    }
    List<FittedTone> tones = found.value().tones();
    // The mean of the squared amplitude that white noise alone gives a tone (IEEE Std 1057).
    double alone = 4 * white(left) / frames;
    for (int first = 0; first < tones.size(); first++) {
      List<FittedTone> row = tones.subList(first, Math.min(first + ROW, tones.size()));
      double power =
          row.stream().mapToDouble(tone -> tone.amplitude() * tone.amplitude()).sum() / ROW;
      if (power > MOST_IN_ROW * alone) {
        return false;
      }
    }
    return true;
  }

  /** The second period less the first, without hum. */
  private double[] difference(SampledChannel channel) {
    double[] values = channel.values();
    double[] difference = new double[frames];
    for (int k = 0; k < frames; k++) {
      difference[k] = values[k + frames] - values[k];
    }
    return withoutHum(difference, channel.intervalSeconds());
  }

  /** Neighbours differ by noise alone: what a knock brings is slow against the sampling. */
  private static double white(double[] left) {
    double white = 0;
    for (int k = 1; k < left.length; k++) {
      double step = left[k] - left[k - 1];
      white += step * step / 2;
    }
    return white / (left.length - 1);
  }

  private static double[] withoutHum(double[] difference, double intervalSeconds) {
    SampledChannel channel = SampledChannel.of(difference, 0, intervalSeconds);
    return ToneFit.of(channel, HUM_HZ) instanceof Outcome.Found<ToneFit> found
        ? found.value().residuals()
        : difference;
  }

  private static double power(double[] values, double around) {
    double sum = 0;
    for (double value : values) {
      sum += (value - around) * (value - around);
    }
    return sum / values.length;
  }
}
