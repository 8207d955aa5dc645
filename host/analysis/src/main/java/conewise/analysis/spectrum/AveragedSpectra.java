package conewise.analysis.spectrum;

import conewise.analysis.outcome.Interval;
import conewise.analysis.sampling.Capture;
import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.math3.transform.DftNormalization;
import org.apache.commons.math3.transform.FastFourierTransformer;
import org.apache.commons.math3.transform.TransformType;

/** Averaged auto and cross spectra of one capture over a band. */
final class AveragedSpectra {

  /** The longest segment: 4 s tells quarter hertz apart, finer than any box bends. */
  private static final double LONGEST_SEGMENT_SECONDS = 4;

  /** The shortest segment: half a second still tells the two peaks of a vented box apart. */
  private static final double SHORTEST_SEGMENT_SECONDS = 0.5;

  /** Fewer overlapping segments than this say nothing of coherence. */
  private static final int FEWEST_SEGMENTS = 12;

  /** The shortest record that holds {@link #FEWEST_SEGMENTS} of the shortest half overlapping. */
  static final double SHORTEST_SECONDS = SHORTEST_SEGMENT_SECONDS * (FEWEST_SEGMENTS + 1) / 2;

  /**
   * Squared correlation of half-overlapping Hann segments: (1/6)^2 (Welch 1967; by integration).
   */
  private static final double OVERLAP = 1 / 36.0;

  /** Lines are averaged over about this width, and at least {@link #FEWEST_LINES}. */
  private static final double LINE_WIDTH_HZ = 1;

  private static final int FEWEST_LINES = 6;

  /** A record is faded in and out over this part of it at each end. */
  private static final double FADE = 0.02;

  private final double[] frequenciesHz;
  private final CrossSums[] sums;
  private final double averages;
  private final double resolutionHz;

  private AveragedSpectra(
      double[] frequenciesHz, CrossSums[] sums, double averages, double resolutionHz) {
    this.frequenciesHz = frequenciesHz;
    this.sums = sums;
    this.averages = averages;
    this.resolutionHz = resolutionHz;
  }

  /**
   * Half-overlapping Hann segments (Welch, IEEE Trans. Audio and Electroacoustics 15, 70, 1967):
   * the longest that still leave enough of them.
   */
  static Optional<AveragedSpectra> overSegments(Capture capture, Interval bandHz) {
    double interval = capture.currentAmpere().intervalSeconds();
    int length = capture.currentAmpere().length();
    int segment = Integer.highestOneBit((int) Math.max(1, LONGEST_SEGMENT_SECONDS / interval));
    while (segment > 1 && segmentsOf(length, segment) < FEWEST_SEGMENTS) {
      segment /= 2;
    }
    if (segment * interval < SHORTEST_SEGMENT_SECONDS / 2) {
      return Optional.empty();
    }
    double[] window = new double[segment];
    for (int k = 0; k < segment; k++) {
      window[k] = 0.5 - 0.5 * Math.cos(2 * Math.PI * (k + 0.5) / segment);
    }
    double lineHz = 1 / (segment * interval);
    int first = (int) Math.ceil(bandHz.low() / lineHz);
    int last = (int) Math.floor(bandHz.high() / lineHz);
    CrossSums[] sums = newSums(Math.max(0, last - first + 1));
    double delay = delaySeconds(capture);
    int segments = segmentsOf(length, segment);
    for (int s = 0; s < segments; s++) {
      Spectra spectra = Spectra.of(capture, s * segment / 2, window, segment);
      for (int i = 0; i < sums.length; i++) {
        spectra.addTo(sums[i], first + i, 2 * Math.PI * (first + i) * lineHz * delay);
      }
    }
    double[] hz = new double[sums.length];
    Arrays.setAll(hz, i -> (first + i) * lineHz);
    double independent = segments / (1 + 2 * OVERLAP * (segments - 1) / segments);
    return Optional.of(new AveragedSpectra(hz, sums, independent, 1.5 * lineHz));
  }

  /**
   * The whole record at once, averaged over neighbouring lines (Daniell; Bendat and Piersol, 11.5;
   * from memory): a swept sine touches each frequency only once, so segments would have nothing to
   * average.
   */
  static AveragedSpectra overLines(Capture capture, Interval bandHz) {
    double interval = capture.currentAmpere().intervalSeconds();
    int length = capture.currentAmpere().length();
    int padded = Integer.highestOneBit(Math.max(1, length - 1)) * 2;
    double[] window = new double[length];
    for (int k = 0; k < length; k++) {
      double fromEdge = Math.min(k + 0.5, length - k - 0.5) / (FADE * length);
      window[k] = fromEdge >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * fromEdge);
    }
    Spectra spectra = Spectra.of(capture, 0, window, padded);
    double duration = length * interval;
    double independent = Math.max(FEWEST_LINES, LINE_WIDTH_HZ * duration);
    double widthHz = independent / duration;
    double lineHz = 1 / (padded * interval);
    int lines = (int) Math.max(1, Math.round(widthHz / lineHz));
    int first = (int) Math.ceil(bandHz.low() / lineHz);
    int count = (int) Math.max(0, Math.floor((bandHz.high() / lineHz - first) / lines));
    CrossSums[] sums = newSums(count);
    double[] hz = new double[count];
    double delay = delaySeconds(capture);
    for (int i = 0; i < count; i++) {
      int start = first + i * lines;
      for (int line = start; line < start + lines; line++) {
        spectra.addTo(sums[i], line, 2 * Math.PI * line * lineHz * delay);
      }
      hz[i] = (start + (lines - 1) / 2.0) * lineHz;
    }
    return new AveragedSpectra(hz, sums, independent, widthHz);
  }

  int size() {
    return sums.length;
  }

  CrossSums sums(int i) {
    return sums[i];
  }

  double frequencyHz(int i) {
    return frequenciesHz[i];
  }

  double averages() {
    return averages;
  }

  double resolutionHz() {
    return resolutionHz;
  }

  double strongestCurrentPower() {
    return Arrays.stream(sums).mapToDouble(CrossSums::currentPower).max().orElse(0);
  }

  /** The middle one of all frequencies' counts of segments that bear the current. */
  double medianParticipation() {
    double[] sorted = Arrays.stream(sums).mapToDouble(CrossSums::participation).sorted().toArray();
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }

  /** How much later the current's samples were taken than the voltage's. */
  private static double delaySeconds(Capture capture) {
    return capture.currentAmpere().firstInstantSeconds()
        - capture.voltageVolt().firstInstantSeconds();
  }

  private static int segmentsOf(int length, int segment) {
    return length < segment ? 0 : 2 * (length - segment) / segment + 1;
  }

  private static CrossSums[] newSums(int count) {
    CrossSums[] sums = new CrossSums[count];
    Arrays.setAll(sums, i -> new CrossSums());
    return sums;
  }

  /** The spectra of both channels of one segment, from one complex transform of v + j i. */
  private static final class Spectra {
    private final double[] real;
    private final double[] imaginary;

    private Spectra(double[] real, double[] imaginary) {
      this.real = real;
      this.imaginary = imaginary;
    }

    static Spectra of(Capture capture, int start, double[] window, int padded) {
      double[][] both = new double[2][padded];
      fill(capture.voltageVolt().values(), start, window, both[0]);
      fill(capture.currentAmpere().values(), start, window, both[1]);
      FastFourierTransformer.transformInPlace(
          both, DftNormalization.STANDARD, TransformType.FORWARD);
      return new Spectra(both[0], both[1]);
    }

    private static void fill(double[] samples, int start, double[] window, double[] target) {
      double mean = 0;
      for (int k = 0; k < window.length; k++) {
        mean += samples[start + k] / window.length;
      }
      for (int k = 0; k < window.length; k++) {
        target[k] = window[k] * (samples[start + k] - mean);
      }
    }

    /** Adds one line; the voltage is turned forward to the instants of the current. */
    void addTo(CrossSums sums, int line, double turn) {
      int mirror = real.length - line;
      double vRe = (real[line] + real[mirror]) / 2;
      double vIm = (imaginary[line] - imaginary[mirror]) / 2;
      double iRe = (imaginary[line] + imaginary[mirror]) / 2;
      double iIm = (real[mirror] - real[line]) / 2;
      double c = Math.cos(turn);
      double s = Math.sin(turn);
      sums.add(vRe * c - vIm * s, vRe * s + vIm * c, iRe, iIm);
    }
  }
}
