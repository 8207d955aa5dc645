package conewise.analysis.bench;

import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.ToneFit;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A clip that moves while a record runs. The record is cut into stretches: in some of them what the
 * tones leave over is then far stronger than in the others (a burst), or the signal stands higher
 * in some than in others (a contact that changed).
 */
final class LooseClip {

  private static final int STRETCHES = 16;

  /** Leftovers below this part of the whole signal are the converter's, whatever their shape. */
  private static final double NOTICEABLE = 0.01;

  private LooseClip() {}

  static Optional<BenchFinding> find(
      Capture capture, ImpedanceEstimate estimate, BenchLimits limits) {
    if (capture.voltageVolt().length() < 8 * STRETCHES) {
      return Optional.empty();
    }
    return Stream.of(
            find(capture.voltageVolt(), estimate.voltage(), "voltage", limits),
            find(capture.currentAmpere(), estimate.current(), "current", limits))
        .flatMap(Optional::stream)
        .findFirst();
  }

  private static Optional<BenchFinding> find(
      SampledChannel channel, ToneFit fit, String name, BenchLimits limits) {
    Stretches stretches = Stretches.of(channel, fit);
    double second = channel.durationSeconds() / STRETCHES;
    int changed = indexOfLargest(stretches.gainSizes());
    double change = stretches.gain()[changed];
    double chance = limits.changeDeviations() * stretches.gainDeviation()[changed];
    if (Math.abs(change) > Math.max(limits.changeFraction(), chance)) {
      return finding(
          String.format(
              Locale.ROOT,
              "the %s about %.2f s into the record is off its mean level by %.2g %%; at most %.2g"
                  + " %% is steady",
              name,
              (changed + 0.5) * second,
              100 * change,
              100 * Math.max(limits.changeFraction(), chance)));
    }
    double[] power = stretches.power();
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    int burst = indexOfLargest(power);
    double ratio = power[burst] / Math.max(sorted[STRETCHES / 2], 1e-30);
    boolean noticeable = power[burst] > NOTICEABLE * NOTICEABLE * stretches.signalPower();
    if (noticeable && ratio > limits.burstRatio()) {
      return finding(
          String.format(
              Locale.ROOT,
              "a burst in the %s about %.2f s into the record has %.3g times the power of its"
                  + " noise; at most %.3g times is steady",
              name,
              (burst + 0.5) * second,
              ratio,
              limits.burstRatio()));
    }
    return Optional.empty();
  }

  private static Optional<BenchFinding> finding(String sentence) {
    return Optional.of(
        new BenchFinding(
            Kind.LOOSE_CLIP,
            true,
            sentence,
            "press the clips home, keep the box still and the room quiet, then measure again"));
  }

  private static int indexOfLargest(double[] values) {
    int largest = 0;
    for (int i = 1; i < values.length; i++) {
      if (values[i] > values[largest]) {
        largest = i;
      }
    }
    return largest;
  }

  /** What each stretch shows. */
  private static final class Stretches {
    private final double[] power = new double[STRETCHES];
    private final double[] gain = new double[STRETCHES];
    private final double[] gainDeviation = new double[STRETCHES];
    private double signalPower;

    static Stretches of(SampledChannel channel, ToneFit fit) {
      Stretches all = new Stretches();
      int each = channel.length() / STRETCHES;
      for (int s = 0; s < STRETCHES; s++) {
        double signal = 0;
        double cross = 0;
        for (int k = s * each; k < (s + 1) * each; k++) {
          double left = fit.residuals()[k];
          double tone = channel.values()[k] - left - fit.offset();
          all.power[s] += left * left / each;
          signal += tone * tone;
          cross += tone * left;
        }
        all.signalPower += signal / each / STRETCHES;
        // A stretch in which the tones happen to cancel says nothing of its level.
        all.gain[s] = signal > 0 ? cross / signal : 0;
        all.gainDeviation[s] = signal > 0 ? Math.sqrt(fit.residualVariance() / signal) : 0;
      }
      return all;
    }

    double[] power() {
      return power;
    }

    /** How far the signal in each stretch stands above the fit, as a part of it. */
    double[] gain() {
      return gain;
    }

    double[] gainSizes() {
      return Arrays.stream(gain).map(Math::abs).toArray();
    }

    /** The standard deviation of each gain from noise alone. */
    double[] gainDeviation() {
      return gainDeviation;
    }

    double signalPower() {
      return signalPower;
    }
  }
}
