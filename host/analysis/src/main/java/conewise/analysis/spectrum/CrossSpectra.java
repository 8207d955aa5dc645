package conewise.analysis.spectrum;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedanceEstimate.LeftOut;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Impedance from a capture whose excitation nobody told us. Steady tones and combs are found and
 * fitted; anything else goes through averaged cross-spectra with coherence.
 *
 * <p>The delay between the channels is removed, whole or fractional. A frequency without excitation
 * or with low coherence is left out and said.
 */
public final class CrossSpectra {

  /** The band in which boxes bend, in hertz. */
  public static final Interval USUAL_BAND_HZ = new Interval(10, 400);

  /** Below this coherence a bound on the reading is no longer a useful one. */
  static final double LOWEST_COHERENCE = 0.9;

  /** Current power below this part of the strongest in the band counts as none: 60 dB. */
  private static final double LOWEST_EXCITATION = 1e-6;

  /** Fewer segments than this bearing the current: it is swept, or a single event. */
  private static final double FEW_SEGMENTS = 3.5;

  private CrossSpectra() {}

  /** Estimates over 10 to 400 Hz. See {@link #estimate(Capture, Interval)}. */
  public static Outcome<SpectralEstimate> estimate(Capture capture) {
    return estimate(capture, USUAL_BAND_HZ);
  }

  /**
   * Estimates the impedance over a band.
   *
   * @param capture voltage and current, any excitation
   * @param bandHz the band in hertz, both ends positive and finite
   * @return the estimate; or no result when the record is too short or slow for the band, or when
   *     no frequency in it is excited coherently
   */
  public static Outcome<SpectralEstimate> estimate(Capture capture, Interval bandHz) {
    if (!(bandHz.low() > 0) || Double.isInfinite(bandHz.high())) {
      throw new IllegalArgumentException(
          "the band runs from "
              + bandHz.low()
              + " to "
              + bandHz.high()
              + " Hz; both ends must be positive and finite");
    }
    double nyquistHz = 0.5 / capture.currentAmpere().intervalSeconds();
    if (bandHz.high() >= nyquistHz) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "the capture holds %.6g samples a second, which shows up to %.6g Hz; %.6g Hz was"
                  + " asked for",
              2 * nyquistHz,
              nyquistHz,
              bandHz.high()));
    }
    Optional<SpectralEstimate> periodic = SteadyTones.onRecordLines(capture, bandHz);
    if (periodic.isPresent()) {
      return Outcome.found(periodic.get());
    }
    Capture slow = decimate(capture, bandHz.high());
    Optional<SpectralEstimate> tones = SteadyTones.anywhere(slow, bandHz);
    if (tones.isPresent()) {
      return Outcome.found(tones.get());
    }
    return averaged(slow, bandHz);
  }

  private static Outcome<SpectralEstimate> averaged(Capture slow, Interval bandHz) {
    Optional<AveragedSpectra> segments = AveragedSpectra.overSegments(slow, bandHz);
    if (segments.isEmpty()) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "a capture of %.3g s of unknown excitation is too short: at least %.2g s are needed"
                  + " to average",
              slow.currentAmpere().durationSeconds(),
              AveragedSpectra.SHORTEST_SECONDS));
    }
    if (segments.get().medianParticipation() < FEW_SEGMENTS) {
      return select(
          AveragedSpectra.overLines(slow, bandHz), SpectralEstimate.Method.AVERAGED_LINES);
    }
    return select(segments.get(), SpectralEstimate.Method.AVERAGED_SEGMENTS);
  }

  private static Outcome<SpectralEstimate> select(
      AveragedSpectra spectra, SpectralEstimate.Method method) {
    double strongest = spectra.strongestCurrentPower();
    List<ImpedancePoint> points = new ArrayList<>();
    List<Double> coherences = new ArrayList<>();
    List<LeftOut> leftOut = new ArrayList<>();
    for (int i = 0; i < spectra.size(); i++) {
      CrossSums sums = spectra.sums(i);
      double hz = spectra.frequencyHz(i);
      if (!(sums.currentPower() > LOWEST_EXCITATION * strongest)) {
        leftOut.add(new LeftOut(hz, "the current there is over 60 dB below its strongest"));
      } else if (!(sums.coherence() >= LOWEST_COHERENCE)) {
        leftOut.add(
            new LeftOut(
                hz,
                String.format(
                    Locale.ROOT,
                    "the coherence is %.3f; it must be at least %.2f",
                    sums.coherence(),
                    LOWEST_COHERENCE)));
      } else {
        points.add(sums.point(hz, spectra.averages()));
        coherences.add(sums.coherence());
      }
    }
    if (points.isEmpty()) {
      return Outcome.none(
          "no frequency could be read: "
              + (leftOut.isEmpty()
                  ? "none lies in the band"
                  : "at the first, " + leftOut.get(0).because())
              + "; check that both channels hold the signals they claim");
    }
    return Outcome.found(
        new SpectralEstimate(
            new ImpedanceCurve(points),
            coherences,
            leftOut,
            method,
            spectra.averages(),
            spectra.resolutionHz()));
  }

  private static Capture decimate(Capture capture, double highestHz) {
    double interval = capture.currentAmpere().intervalSeconds();
    int factor = Decimator.factorFor(1 / interval, highestHz);
    // A capture shorter than a few filters is left as it is; it is too short to average anyway.
    if (factor == 1 || capture.currentAmpere().length() < 100L * factor) {
      return capture;
    }
    return new Capture(
        decimate(capture.voltageVolt(), factor), decimate(capture.currentAmpere(), factor));
  }

  private static SampledChannel decimate(SampledChannel channel, int factor) {
    Decimator decimator = new Decimator(factor);
    for (double value : channel.values()) {
      decimator.accept(value);
    }
    return decimator.channel(channel.firstInstantSeconds(), channel.intervalSeconds());
  }
}
