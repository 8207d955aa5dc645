package conewise.analysis.spectrum;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedanceEstimate.LeftOut;
import java.util.List;

/**
 * What a capture of unknown excitation gave.
 *
 * @param curve the points obtained
 * @param coherence for each point, what part of the voltage the current explains, 0 to 1
 * @param leftOut frequencies at which nothing could be said, each with its reason
 * @param method how it was obtained
 * @param averages independent spectra averaged for each point; 1 for steady tones
 * @param resolutionHz what is nearer together than this is not told apart, in hertz
 */
public record SpectralEstimate(
    ImpedanceCurve curve,
    List<Double> coherence,
    List<LeftOut> leftOut,
    Method method,
    double averages,
    double resolutionHz) {

  /** How an estimate was obtained. */
  public enum Method {
    /** The excitation repeats in the record, or is a few tones: each was fitted. */
    STEADY_TONES,
    /** Cross-spectra averaged over overlapping segments of the record. */
    AVERAGED_SEGMENTS,
    /** Cross-spectra of the whole record averaged over neighbouring lines: for swept sines. */
    AVERAGED_LINES
  }

  public SpectralEstimate {
    coherence = List.copyOf(coherence);
    leftOut = List.copyOf(leftOut);
    if (coherence.size() != curve.points().size()) {
      throw new IllegalArgumentException(
          coherence.size() + " coherences for " + curve.points().size() + " points");
    }
  }
}
