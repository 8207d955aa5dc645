package conewise.analysis.prediction;

import conewise.analysis.feature.Extrema;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a person reads off a curve that was computed.
 *
 * @param peaks of |Z|, rising in frequency
 * @param dips of |Z| between or beside them, rising in frequency
 * @param lowest the lowest |Z| above 0 Hz, and where
 * @param dcOhm the resistance at 0 Hz
 */
public record CurveShape(List<Place> peaks, List<Place> dips, Place lowest, double dcOhm) {
  /** Two curves are one times a number where their ratio stays within this. */
  private static final double SAME_RATIO = 0.01;

  /**
   * A place on a curve.
   *
   * @param frequencyHz in hertz
   * @param modulusOhm |Z| there, in ohm
   */
  public record Place(double frequencyHz, double modulusOhm) {}

  public CurveShape {
    peaks = List.copyOf(peaks);
    dips = List.copyOf(dips);
  }

  /**
   * Reads a curve that begins at 0 Hz and has points above.
   *
   * @throws IllegalArgumentException where it does not
   */
  public static CurveShape of(ImpedanceCurve curve) {
    if (curve.lowestHz() != 0 || curve.points().size() < 2) {
      throw new IllegalArgumentException(
          "a shape is read off a curve from 0 Hz with at least 2 points; this one has "
              + curve.points().size()
              + " from "
              + curve.lowestHz()
              + " Hz");
    }
    Extrema extrema = Extrema.of(curve);
    ImpedancePoint lowest =
        curve.points().stream()
            .skip(1)
            .min(Comparator.comparingDouble(ImpedancePoint::modulusOhm))
            .orElseThrow();
    return new CurveShape(
        extrema.peaks().stream().map(CurveShape::place).toList(),
        extrema.dips().stream().map(CurveShape::place).toList(),
        new Place(lowest.frequencyHz(), lowest.modulusOhm()),
        curve.points().get(0).resistanceOhm());
  }

  private static Place place(Extremum extremum) {
    return new Place(extremum.frequencyHz().value(), extremum.modulusOhm().value());
  }

  /**
   * By how much a curve is another one, where it is so at every frequency within 1 %: a wrong join
   * of like coils changes the level and nothing else.
   *
   * @param other at the same frequencies
   * @return empty where the shapes differ
   */
  static OptionalDouble timesOf(ImpedanceCurve curve, ImpedanceCurve other) {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int i = 0; i < curve.points().size(); i++) {
      double ratio = curve.points().get(i).modulusOhm() / other.points().get(i).modulusOhm();
      least = Math.min(least, ratio);
      most = Math.max(most, ratio);
    }
    return most <= least * (1 + SAME_RATIO) ? OptionalDouble.of(most) : OptionalDouble.empty();
  }
}
