package conewise.station.judging;

import conewise.analysis.bench.BenchCheck;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.spectrum.CrossSpectra;
import conewise.analysis.spectrum.SpectralEstimate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Turns a recording of unknown excitation into a measurement. */
final class RecordingReader {
  private static final double LOWEST_HZ = 10;
  private static final double HIGHEST_HZ = 400;

  /** A recorder's own filter bends the last tenth below half the sample rate. */
  private static final double USABLE_OF_NYQUIST = 0.9;

  private RecordingReader() {}

  /**
   * Reads a recording over 10 to 400 Hz, or as far as its sample rate carries.
   *
   * @param capture voltage and current, any excitation
   * @return the curve or why there is none, and what the recording shows of the bench
   */
  static Measurement read(Capture capture) {
    double usableHz = USABLE_OF_NYQUIST * 0.5 / capture.currentAmpere().intervalSeconds();
    BenchCheck bench = BenchCheck.standard();
    List<BenchFinding> findings = new ArrayList<>(bench.clipping(capture));
    if (usableHz <= LOWEST_HZ) {
      String because =
          "the recording's sample rate carries only up to " + usableHz + " Hz; 10 Hz is needed";
      return new Measurement(Outcome.none(because), findings);
    }
    Interval bandHz = new Interval(LOWEST_HZ, Math.min(HIGHEST_HZ, usableHz));
    Outcome<SpectralEstimate> estimate = CrossSpectra.estimate(capture, bandHz);
    if (estimate instanceof Outcome.Found<SpectralEstimate> found) {
      findings.addAll(bench.curve(found.value().curve()));
    } else if (estimate instanceof Outcome.NoResult<SpectralEstimate> none) {
      bench.noCurve(capture, none.because()).ifPresent(findings::add);
    }
    findings.sort(Comparator.comparing(finding -> !finding.spoils()));
    return new Measurement(estimate.map(SpectralEstimate::curve), findings);
  }
}
