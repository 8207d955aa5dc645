package conewise.analysis.parameter;

import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A driver roughly as its free-air curve shows it, for a fit to start from: Re, the peak, and the
 * two frequencies at which |Z| is sqrt(Zmax Re) (Thiele 1971; Small, J. Audio Eng. Soc. 20, 1972).
 */
final class FirstGuess {
  private static final double USUAL_VAS_M3 = 0.05;
  private static final double LEAST_PEAK = 1.15;

  private FirstGuess() {}

  static Outcome<Driver> of(ImpedanceCurve curve, int coils) {
    CurveFeatures features = CurveFeatures.of(curve);
    Optional<Extremum> peak =
        features.extrema().peaks().stream()
            .max(Comparator.comparingDouble(each -> each.modulusOhm().value()));
    double re =
        features.dcResistanceOhm() instanceof Found<Estimate> found
            ? found.value().value()
            : features.lowestModulus().modulusOhm().value();
    if (peak.isEmpty() || peak.get().modulusOhm().value() < LEAST_PEAK * re) {
      return Outcome.none(
          "the curve has no peak that stands out from the DC resistance, so it is not that of a"
              + " driver in free air over its resonance");
    }
    double fs = peak.get().frequencyHz().value();
    double r0 = peak.get().modulusOhm().value() / re;
    double width = width(curve.points(), fs, Math.sqrt(r0) * re);
    double qms = Math.max(0.8, fs * Math.sqrt(r0) / width);
    double coilOhm = re / coils;
    Driver driver = Driver.of(fs, qms, qms / (r0 - 1), USUAL_VAS_M3, coils, coilOhm);
    return Outcome.found(driver.withInductance(inductance(curve, re, coils), coils > 1 ? 0.8 : 0));
  }

  /** How far apart the curve passes a level on both sides of the peak. */
  private static double width(List<ImpedancePoint> points, double fs, double level) {
    double low = points.get(0).frequencyHz();
    double high = points.get(points.size() - 1).frequencyHz();
    for (ImpedancePoint point : points) {
      if (point.modulusOhm() < level && point.frequencyHz() < fs) {
        low = point.frequencyHz();
      }
      if (point.modulusOhm() < level && point.frequencyHz() > fs) {
        high = point.frequencyHz();
        break;
      }
    }
    return Math.max(high - low, 0.02 * fs);
  }

  /** A lossy inductance of exponent 0.7 that meets the last point's reactance. */
  private static Inductance inductance(ImpedanceCurve curve, double re, int coils) {
    ImpedancePoint last = curve.points().get(curve.points().size() - 1);
    double exponent = 0.7;
    double reactance = Math.max(0.02 * re, last.reactanceOhm());
    double modulus = reactance / Math.sin(exponent * Math.PI / 2);
    double each = modulus / (coils * (1 + (coils - 1) * 0.8));
    return Inductance.lossy(each / Math.pow(2 * Math.PI * last.frequencyHz(), exponent), exponent);
  }
}
