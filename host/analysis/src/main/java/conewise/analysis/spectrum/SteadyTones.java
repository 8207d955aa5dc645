package conewise.analysis.spectrum;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.RecordLines;
import conewise.analysis.sampling.SampledChannel;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Finds out whether the excitation is a set of steady tones, and then fits them: far better than
 * averaging spectra of them.
 */
final class SteadyTones {

  /** Multiplications that looking at every line of a record may cost. */
  private static final double MOST_WORK = 1e8;

  /** Between lines with a tone and lines without, at least this ratio of power: 15 dB. */
  private static final double GAP = 30;

  /** Fewer empty lines than this could be empty by chance. */
  private static final int FEWEST_EMPTY = 5;

  /** The tones must explain all but this part of the current's power. */
  private static final double MOST_LEFT = 0.05;

  private SteadyTones() {}

  /**
   * The excitation repeats a whole number of times in the record: a comb, tones, a looped noise.
   */
  static Optional<SpectralEstimate> onRecordLines(Capture capture, Interval bandHz) {
    SampledChannel current = capture.currentAmpere();
    double duration = current.durationSeconds();
    int first = (int) Math.max(1, Math.ceil(bandHz.low() * duration * 0.5));
    int last = (int) Math.min(bandHz.high() * duration, (current.length() - 1) / 2.0);
    if (last - first < 2 * FEWEST_EMPTY || (double) (last - first) * current.length() > MOST_WORK) {
      return Optional.empty();
    }
    double[] power = RecordLines.power(current, first, last);
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    double threshold = largestGap(sorted);
    if (!(threshold > 0)) {
      return Optional.empty();
    }
    double[] hz =
        IntStream.range(0, power.length)
            .filter(i -> power[i] >= threshold)
            .mapToDouble(i -> (first + i) / duration)
            .toArray();
    return fit(capture, hz, bandHz, 1 / duration);
  }

  /**
   * The power at the upper side of the largest gap in a rising list; 0 when none is wide enough.
   */
  private static double largestGap(double[] sorted) {
    double largest = GAP;
    double above = 0;
    for (int i = FEWEST_EMPTY; i < sorted.length; i++) {
      double ratio = sorted[i] / Math.max(sorted[i - 1], 1e-20 * sorted[sorted.length - 1]);
      if (ratio > largest) {
        largest = ratio;
        above = sorted[i];
      }
    }
    return above;
  }

  /** A few tones of any frequency, well apart for the record. */
  static Optional<SpectralEstimate> anywhere(Capture capture, Interval bandHz) {
    SampledChannel current = capture.currentAmpere();
    if (current.length() < 64) {
      return Optional.empty();
    }
    double[] hz = TonePeaks.in(current, bandHz);
    return hz.length == 0
        ? Optional.empty()
        : fit(capture, hz, bandHz, 2 * TonePeaks.APART / current.durationSeconds());
  }

  /** Fits every tone found, also those beside the band, and keeps those within. */
  private static Optional<SpectralEstimate> fit(
      Capture capture, double[] hz, Interval bandHz, double resolutionHz) {
    if (hz.length == 0) {
      return Optional.empty();
    }
    Outcome<ImpedanceEstimate> outcome = ImpedanceEstimator.estimate(capture, hz);
    if (!(outcome instanceof Outcome.Found<ImpedanceEstimate> found)) {
      return Optional.empty();
    }
    ImpedanceEstimate estimate = found.value();
    double explained =
        estimate.current().tones().stream()
            .mapToDouble(tone -> tone.amplitude() * tone.amplitude() / 2)
            .sum();
    double left = estimate.current().residualVariance();
    List<ImpedancePoint> within =
        estimate.curve().points().stream()
            .filter(point -> bandHz.contains(point.frequencyHz()))
            .toList();
    if (within.isEmpty() || !(left <= MOST_LEFT * (explained + left))) {
      return Optional.empty();
    }
    return Optional.of(
        new SpectralEstimate(
            new ImpedanceCurve(within),
            Collections.nCopies(within.size(), 1 - left / (explained + left)),
            estimate.leftOut().stream()
                .filter(leftOut -> bandHz.contains(leftOut.frequencyHz()))
                .toList(),
            SpectralEstimate.Method.STEADY_TONES,
            1,
            resolutionHz));
  }
}
