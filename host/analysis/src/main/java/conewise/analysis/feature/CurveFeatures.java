package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * All that is read off one curve. Immutable; {@link #of} takes a few milliseconds.
 *
 * @param extrema peaks and dips of |Z|
 * @param phaseZerosHz where the phase passes zero falling (at peaks) or rising (near dips)
 * @param lowestModulus the lowest |Z| above 0 Hz
 * @param dcResistanceOhm the resistance at 0 Hz
 * @param tuningHz the frequency at which the cones are held by the box, for curves of two peaks or
 *     more; unlike the dip of |Z| it has the coil taken out
 * @param mainResonanceHz the natural frequency of the strongest resonance
 * @param resonances of the fitted sum, rising in frequency; empty when the fit gave none
 * @param fittedPeaksOhm |Z| at each peak of the fit within the range, rising in frequency
 * @param relativeResidual what the sum of resonances leaves over, root mean square over |Z|
 */
public record CurveFeatures(
    Extrema extrema,
    List<PhaseZero> phaseZerosHz,
    LowestModulus lowestModulus,
    Outcome<Estimate> dcResistanceOhm,
    Outcome<Estimate> tuningHz,
    Outcome<Estimate> mainResonanceHz,
    List<Resonance> resonances,
    Outcome<List<Double>> fittedPeaksOhm,
    Outcome<Double> relativeResidual) {

  /**
   * A zero of the phase.
   *
   * @param frequencyHz where, by a straight line between two points
   * @param rising true where the reactance goes from negative to positive
   */
  public record PhaseZero(double frequencyHz, boolean rising) {}

  /**
   * The lowest |Z|.
   *
   * @param frequencyHz where
   * @param modulusOhm how much
   */
  public record LowestModulus(double frequencyHz, Estimate modulusOhm) {}

  public CurveFeatures {
    phaseZerosHz = List.copyOf(phaseZerosHz);
    resonances = List.copyOf(resonances);
  }

  /** Reads a curve that has at least one point above 0 Hz and nowhere the impedance 0. */
  public static CurveFeatures of(ImpedanceCurve curve) {
    Extrema extrema = Extrema.of(curve);
    Outcome<FittedCurve> fit = ResonanceSearch.of(curve, extrema);
    double lowHz =
        curve.points().stream()
            .mapToDouble(ImpedancePoint::frequencyHz)
            .filter(f -> f > 0)
            .findFirst()
            .orElseThrow();
    return new CurveFeatures(
        extrema,
        phaseZeros(curve),
        lowest(curve, extrema),
        chain(fit, FittedCurve::dcResistanceOhm),
        chain(fit, FittedCurve::tuningHz),
        chain(fit, FittedCurve::mainResonanceHz),
        fit instanceof Found<FittedCurve> found ? found.value().resonances() : List.of(),
        fit.map(f -> f.peaksOhm(lowHz, curve.highestHz())),
        fit.map(FittedCurve::relativeResidual));
  }

  private static <T, R> Outcome<R> chain(Outcome<T> outcome, Function<T, Outcome<R>> next) {
    return outcome instanceof Found<T> found
        ? next.apply(found.value())
        : Outcome.none(((NoResult<T>) outcome).because());
  }

  /** The dip between the first and the last peak, the lowest when there are several. */
  public Optional<Extremum> dipBetweenPeaks() {
    if (extrema.peaks().size() < 2) {
      return Optional.empty();
    }
    double first = extrema.peaks().get(0).frequencyHz().value();
    double last = extrema.peaks().get(extrema.peaks().size() - 1).frequencyHz().value();
    return extrema.dips().stream()
        .filter(d -> d.frequencyHz().value() > first && d.frequencyHz().value() < last)
        .min(Comparator.comparingDouble(d -> d.modulusOhm().value()));
  }

  private static LowestModulus lowest(ImpedanceCurve curve, Extrema extrema) {
    ImpedancePoint lowest =
        curve.points().stream()
            .filter(p -> p.frequencyHz() > 0)
            .min(Comparator.comparingDouble(ImpedancePoint::modulusOhm))
            .orElseThrow();
    double arm = lowest.modulusOhm() * (1.96 * extrema.jitter() + 0.002);
    Estimate onPoint = Estimate.within(lowest.modulusOhm(), arm);
    return extrema.dips().stream()
        .filter(d -> d.modulusOhm().value() <= onPoint.interval().high())
        .min(Comparator.comparingDouble(d -> d.modulusOhm().value()))
        .map(d -> new LowestModulus(d.frequencyHz().value(), d.modulusOhm()))
        .orElse(new LowestModulus(lowest.frequencyHz(), onPoint));
  }

  private static List<PhaseZero> phaseZeros(ImpedanceCurve curve) {
    List<PhaseZero> zeros = new ArrayList<>();
    List<ImpedancePoint> points = curve.points().stream().filter(p -> p.frequencyHz() > 0).toList();
    for (int i = 1; i < points.size(); i++) {
      double before = points.get(i - 1).reactanceOhm();
      double after = points.get(i).reactanceOhm();
      if (before < 0 != after < 0) {
        double part = before / (before - after);
        double step = points.get(i).frequencyHz() - points.get(i - 1).frequencyHz();
        zeros.add(new PhaseZero(points.get(i - 1).frequencyHz() + part * step, after > before));
      }
    }
    return zeros;
  }
}
