package conewise.analysis.bench;

import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.sampling.Capture;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * A clip that moves while a record runs: what the tones leave over is then far stronger in some
 * stretches of the record than in others.
 */
final class LooseClip {

  private static final int STRETCHES = 16;

  /** Leftovers below this part of the whole signal are the converter's, whatever their shape. */
  private static final double NOTICEABLE = 0.01;

  private LooseClip() {}

  static Optional<BenchFinding> find(
      Capture capture, ImpedanceEstimate estimate, BenchLimits limits) {
    double[] voltage = estimate.voltage().residuals();
    double[] current = estimate.current().residuals();
    if (voltage.length < 8 * STRETCHES) {
      return Optional.empty();
    }
    double worst = 0;
    int where = 0;
    boolean noticeable = false;
    for (double[] residuals : new double[][] {voltage, current}) {
      double[] values =
          residuals == voltage ? capture.voltageVolt().values() : capture.currentAmpere().values();
      double[] power = stretches(residuals);
      double[] sorted = power.clone();
      Arrays.sort(sorted);
      double middle = sorted[STRETCHES / 2];
      int strongest = indexOf(power, sorted[STRETCHES - 1]);
      double ratio = middle > 0 ? power[strongest] / middle : 0;
      if (ratio > worst && power[strongest] > NOTICEABLE * NOTICEABLE * variance(values)) {
        worst = ratio;
        where = strongest;
        noticeable = true;
      }
    }
    if (!noticeable || worst <= limits.burstRatio()) {
      return Optional.empty();
    }
    double second = (where + 0.5) * capture.voltageVolt().durationSeconds() / STRETCHES;
    return Optional.of(
        new BenchFinding(
            Kind.LOOSE_CLIP,
            true,
            String.format(
                Locale.ROOT,
                "a burst about %.2f s into the record is %.3g times as strong as its noise; at most"
                    + " %.3g times is steady",
                second,
                worst,
                limits.burstRatio()),
            "press the clips home, keep the box still and the room quiet, then measure again"));
  }

  private static double[] stretches(double[] residuals) {
    double[] power = new double[STRETCHES];
    int each = residuals.length / STRETCHES;
    for (int s = 0; s < STRETCHES; s++) {
      for (int k = s * each; k < (s + 1) * each; k++) {
        power[s] += residuals[k] * residuals[k] / each;
      }
    }
    return power;
  }

  private static int indexOf(double[] values, double wanted) {
    int i = 0;
    while (values[i] != wanted) {
      i++;
    }
    return i;
  }

  private static double variance(double[] values) {
    double mean = Arrays.stream(values).average().orElseThrow();
    return Arrays.stream(values).map(x -> (x - mean) * (x - mean)).average().orElseThrow();
  }
}
