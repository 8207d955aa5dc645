package conewise.analysis.parameter;

import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.feature.CurveFeatures.PhaseZero;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.List;
import java.util.Optional;

/**
 * The several readings that are taken for the tuning of a vented box. Only the fitted one is the
 * tuning; the others are given beside it under their own names, with what each is known to be off.
 *
 * @param fittedHz of the whole model, with the coil in it
 * @param dipHz where |Z| is least between the peaks
 * @param phaseZeroHz where the phase passes zero, rising, nearest to the dip
 * @param threeFrequenciesHz sqrt(fL^2 + fH^2 - fC^2) from the two peaks and that of the same box
 *     with its vent closed (A. N. Thiele, J. Audio Eng. Soc. 19, 1971, from memory)
 */
public record TuningReadings(
    Outcome<Estimate> fittedHz,
    Outcome<Estimate> dipHz,
    Outcome<Double> phaseZeroHz,
    Outcome<Double> threeFrequenciesHz) {

  /** What the dip is known to be off (own computation over invented boxes). */
  public static final String DIP_BIAS =
      "lies 1 to 10 % low for the coil's inductance, or up to 4 % high for losses";

  /** What the zero of the phase is known to be off. */
  public static final String PHASE_ZERO_BIAS = "lies 1 to 10 % low for the coil's inductance";

  /** What the three frequencies are known to be off. */
  public static final String THREE_FREQUENCIES_BIAS = "stays within 1 %";

  /**
   * Reads the curves.
   *
   * @param open the sweep with the vent open
   * @param closed the sweep of the same box with its vent closed, where there is one
   */
  public static TuningReadings of(
      Outcome<Estimate> fittedHz, ImpedanceCurve open, Optional<ImpedanceCurve> closed) {
    CurveFeatures features = CurveFeatures.of(open);
    Optional<Extremum> dip = features.dipBetweenPeaks();
    Outcome<Estimate> dipHz =
        dip.map(each -> Outcome.found(each.frequencyHz()))
            .orElseGet(() -> Outcome.none("the curve has no dip between two peaks"));
    return new TuningReadings(
        fittedHz, dipHz, phaseZero(features, dipHz), threeFrequencies(features, closed));
  }

  private static Outcome<Double> phaseZero(CurveFeatures features, Outcome<Estimate> dipHz) {
    if (!(dipHz instanceof Found<Estimate> dip)) {
      return Outcome.none("without a dip no zero of the phase is that of the tuning");
    }
    double near = dip.value().value();
    return features.phaseZerosHz().stream()
        .filter(PhaseZero::rising)
        .map(PhaseZero::frequencyHz)
        .min((a, b) -> Double.compare(Math.abs(a - near), Math.abs(b - near)))
        .map(Outcome::found)
        .orElseGet(() -> Outcome.none("the phase does not rise through zero near the dip"));
  }

  private static Outcome<Double> threeFrequencies(
      CurveFeatures features, Optional<ImpedanceCurve> closed) {
    if (closed.isEmpty()) {
      return Outcome.none("this reading needs a second sweep with the vent closed");
    }
    List<Extremum> peaks = features.extrema().peaks();
    List<Extremum> closedPeaks = CurveFeatures.of(closed.get()).extrema().peaks();
    if (peaks.size() != 2 || closedPeaks.size() != 1) {
      return Outcome.none(
          "this reading needs two peaks with the vent open and one with it closed; there are "
              + peaks.size()
              + " and "
              + closedPeaks.size());
    }
    double low = peaks.get(0).frequencyHz().value();
    double high = peaks.get(1).frequencyHz().value();
    double one = closedPeaks.get(0).frequencyHz().value();
    double square = low * low + high * high - one * one;
    return square > 0
        ? Outcome.found(Math.sqrt(square))
        : Outcome.none(
            "the closed box's peak at " + one + " Hz lies above what the open one's two allow");
  }
}
