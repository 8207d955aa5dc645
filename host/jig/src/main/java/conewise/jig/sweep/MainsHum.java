package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.FittedTone;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.ToneFit;
import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Estimates an impedance beside mains hum: where hum shows in what the tones leave over, it is
 * fitted along with them, so that it does not leak into the lines next to it.
 */
final class MainsHum {

  private static final double[] MAINS_HZ = {50, 60};

  /** Harmonics fitted, the fundamental included. */
  private static final int HARMONICS = 6;

  /** Hum counts when it stands this many standard uncertainties above nothing. */
  private static final double SIGNIFICANT = 6;

  /** A record cannot tell two tones closer than about one over its length. */
  private static final double APART_IN_RECORD = 0.5;

  private MainsHum() {}

  static Outcome<ImpedanceEstimate> estimate(Capture capture, double[] frequenciesHz) {
    Outcome<ImpedanceEstimate> plain = ImpedanceEstimator.estimate(capture, frequenciesHz);
    if (plain instanceof Outcome.Found<ImpedanceEstimate> found) {
      for (double mainsHz : MAINS_HZ) {
        double[] hum = harmonics(capture, frequenciesHz, mainsHz);
        if (hum.length > 0 && hums(capture, found.value(), hum)) {
          Outcome<ImpedanceEstimate> beside =
              ImpedanceEstimator.estimate(capture, frequenciesHz, hum);
          return beside instanceof Outcome.Found<ImpedanceEstimate> ? beside : plain;
        }
      }
    }
    return plain;
  }

  private static double[] harmonics(Capture capture, double[] frequenciesHz, double mainsHz) {
    double apartHz = APART_IN_RECORD / capture.voltageVolt().durationSeconds();
    return IntStream.rangeClosed(1, HARMONICS)
        .mapToDouble(k -> k * mainsHz)
        .filter(hz -> hz < 0.45 / capture.voltageVolt().intervalSeconds())
        .filter(hz -> Arrays.stream(frequenciesHz).allMatch(f -> Math.abs(f - hz) >= apartHz))
        .toArray();
  }

  private static boolean hums(Capture capture, ImpedanceEstimate estimate, double[] hum) {
    return stands(capture.voltageVolt(), estimate.voltage(), hum)
        || stands(capture.currentAmpere(), estimate.current(), hum);
  }

  private static boolean stands(SampledChannel channel, ToneFit fit, double[] hum) {
    SampledChannel leftOver =
        SampledChannel.of(
            fit.residuals(), channel.firstInstantSeconds(), channel.intervalSeconds());
    return ToneFit.of(leftOver, hum) instanceof Outcome.Found<ToneFit> found
        && found.value().tones().stream().anyMatch(MainsHum::isSignificant);
  }

  private static boolean isSignificant(FittedTone tone) {
    return tone.amplitude() > SIGNIFICANT * tone.standardUncertainty();
  }
}
