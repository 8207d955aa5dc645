package conewise.station.chart;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.Demands;
import conewise.station.card.JobCard;
import conewise.station.card.Mark;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What is to be drawn of one box.
 *
 * @param points the curve's points above 0 Hz, at least one
 * @param scaleUncertainty relative standard uncertainty common to all points
 * @param marks peaks and dips to point out
 * @param allowedHz where the plan allows the tuning (vented) or the resonance (sealed)
 * @param allowedLabel what that band is called
 * @param floorOhm the lowest modulus that the rated impedance allows
 */
public record Drawing(
    List<ImpedancePoint> points,
    double scaleUncertainty,
    List<Mark> marks,
    Optional<Interval> allowedHz,
    String allowedLabel,
    Optional<Double> floorOhm) {
  /** The lowest |Z| allowed, as a part of the rated impedance (IEC 60268-5, 16.1). */
  private static final double FLOOR_FRACTION = 0.8;

  public Drawing {
    points = List.copyOf(points);
    marks = List.copyOf(marks);
    if (points.isEmpty()) {
      throw new IllegalArgumentException("a drawing needs at least one point; it had 0");
    }
  }

  /** The drawing of a card; none where there is no curve or no point above 0 Hz. */
  public static Outcome<Drawing> of(JobCard card) {
    if (card.measurement().curve() instanceof Outcome.NoResult<ImpedanceCurve> none) {
      return Outcome.none(none.because());
    }
    ImpedanceCurve curve = ((Outcome.Found<ImpedanceCurve>) card.measurement().curve()).value();
    List<ImpedancePoint> points =
        curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
    if (points.isEmpty()) {
      return Outcome.none("the curve has no point above 0 Hz");
    }
    Demands demands = card.plan().demands();
    Optional<Interval> tuning = only(demands.tuningHz());
    return Outcome.found(
        new Drawing(
            points,
            curve.scaleUncertainty(),
            card.marks(),
            tuning.or(() -> only(demands.closedResonanceHz())),
            tuning.isPresent() ? "tuning allowed" : "resonance allowed",
            demands.ratedImpedanceOhm().map(rated -> FLOOR_FRACTION * rated)));
  }

  /** Several limits would cover one another. */
  private static Optional<Interval> only(Map<String, Interval> bySpace) {
    return bySpace.size() == 1 ? bySpace.values().stream().findFirst() : Optional.empty();
  }

  /** A curve alone. */
  public static Outcome<Drawing> of(ImpedanceCurve curve, List<Mark> marks) {
    List<ImpedancePoint> points =
        curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
    return points.isEmpty()
        ? Outcome.none("the curve has no point above 0 Hz")
        : Outcome.found(
            new Drawing(
                points, curve.scaleUncertainty(), marks, Optional.empty(), "", Optional.empty()));
  }

  FrequencyAxis frequencyAxis() {
    return FrequencyAxis.around(
        points.get(0).frequencyHz(), points.get(points.size() - 1).frequencyHz());
  }

  double largestOhm() {
    return points.stream().mapToDouble(ImpedancePoint::modulusOhm).max().orElseThrow();
  }

  /** The part of the allowed band that the axis shows; empty when none of it does. */
  Optional<Interval> visibleBand(FrequencyAxis axis) {
    return allowedHz
        .filter(band -> band.high() >= axis.lowHz() && band.low() <= axis.highHz())
        .map(
            band ->
                new Interval(
                    Math.max(band.low(), axis.lowHz()), Math.min(band.high(), axis.highHz())));
  }
}
