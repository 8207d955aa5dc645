package conewise.analysis.bench;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.FittedTone;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.ToneFit;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Mains hum found in a channel: a fundamental of 50 or 60 Hz with its harmonics.
 *
 * @param mainsHz 50 or 60
 * @param effective the effective value of all harmonics that stand out of the noise, in the
 *     channel's unit
 */
record Hum(double mainsHz, double effective) {

  private static final int HARMONICS = 5;

  /** A harmonic counts when it stands this many standard uncertainties above nothing. */
  private static final double STANDS_OUT = 6;

  /** The stronger of the two kinds of mains; nothing when neither stands out of the noise. */
  static Optional<Hum> in(SampledChannel channel) {
    Hum at50 = fit(channel, 50);
    Hum at60 = fit(channel, 60);
    Hum stronger = at50.effective >= at60.effective ? at50 : at60;
    return stronger.effective > 0 ? Optional.of(stronger) : Optional.empty();
  }

  private static Hum fit(SampledChannel channel, double mainsHz) {
    double nyquistHz = 0.5 / channel.intervalSeconds();
    double[] hz =
        IntStream.rangeClosed(1, HARMONICS)
            .mapToDouble(n -> n * mainsHz)
            .filter(f -> f < nyquistHz)
            .toArray();
    // Too slow or too short a record to show mains at all: it shows none.
    if (ToneFit.of(channel, hz) instanceof Outcome.Found<ToneFit> found) {
      double squares =
          found.value().tones().stream()
              .filter(tone -> tone.amplitude() > STANDS_OUT * tone.standardUncertainty())
              .mapToDouble(FittedTone::amplitude)
              .map(amplitude -> amplitude * amplitude / 2)
              .sum();
      return new Hum(mainsHz, Math.sqrt(squares));
    }
    return new Hum(mainsHz, 0);
  }
}
