package conewise.station.chart;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.Demands;
import conewise.analysis.prediction.ExpectedBand;
import conewise.station.card.Backdrop;
import conewise.station.card.JobCard;
import conewise.station.card.Mark;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What is to be drawn of one box.
 *
 * @param line what the points are
 * @param points the curve's points above 0 Hz; none only where the backdrop has a band
 * @param scaleUncertainty relative standard uncertainty common to all points
 * @param marks peaks and dips to point out
 * @param allowedHz where the plan allows the tuning (vented) or the resonance (sealed)
 * @param allowedLabel what that band is called
 * @param floorOhm the lowest modulus that the rated impedance allows
 * @param backdrop what the curve is held against
 */
public record Drawing(
    Line line,
    List<ImpedancePoint> points,
    double scaleUncertainty,
    List<Mark> marks,
    Optional<Interval> allowedHz,
    String allowedLabel,
    Optional<Double> floorOhm,
    Backdrop backdrop) {
  /** The lowest |Z| allowed, as a part of the rated impedance (IEC 60268-5, 16.1). */
  private static final double FLOOR_FRACTION = 0.8;

  /** What a drawn curve is, in its style and in words beside it. */
  public enum Line {
    /** Measured. */
    MEASURED("", "measured"),
    /** Measured, with more points to come. */
    GROWING("", "measured so far"),
    /** Of a part of its record: it may still move. */
    ESTIMATED(" so-far", "so far");

    private final String style;
    private final String words;

    Line(String style, String words) {
      this.style = style;
      this.words = words;
    }

    /** Stands after the name of a line's style. */
    String style() {
      return style;
    }

    String words() {
      return words;
    }
  }

  public Drawing {
    points = List.copyOf(points);
    marks = List.copyOf(marks);
    if (points.isEmpty() && backdrop.expected().isEmpty()) {
      throw new IllegalArgumentException(
          "a drawing needs at least one point, or a band; it had neither");
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
            Line.MEASURED,
            points,
            curve.scaleUncertainty(),
            card.marks(),
            tuning.or(() -> only(demands.closedResonanceHz())),
            tuning.isPresent() ? "tuning allowed" : "resonance allowed",
            demands.ratedImpedanceOhm().map(rated -> FLOOR_FRACTION * rated),
            card.backdrop()));
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
                Line.MEASURED,
                points,
                curve.scaleUncertainty(),
                marks,
                Optional.empty(),
                "",
                Optional.empty(),
                Backdrop.NONE));
  }

  /**
   * A box without a verdict: what is seen of its curve, before where it is expected.
   *
   * @param points in order of frequency; there may be none
   * @param scaleUncertainty relative standard uncertainty common to all points
   */
  public static Drawing growing(
      Line line, List<ImpedancePoint> points, double scaleUncertainty, ExpectedBand band) {
    return new Drawing(
        line,
        points.stream().filter(point -> point.frequencyHz() > 0).toList(),
        scaleUncertainty,
        List.of(),
        Optional.empty(),
        "",
        Optional.empty(),
        Backdrop.of(band));
  }

  FrequencyAxis frequencyAxis() {
    List<Double> ends = new ArrayList<>();
    points.forEach(point -> ends.add(point.frequencyHz()));
    backdrop
        .expected()
        .ifPresent(band -> band.levels().forEach(level -> ends.add(level.frequencyHz())));
    return FrequencyAxis.around(Collections.min(ends), Collections.max(ends));
  }

  /** All of the measured and of the expected; of a fault's curve no more than twice as much. */
  double largestOhm() {
    double measured = points.stream().mapToDouble(ImpedancePoint::modulusOhm).max().orElse(0);
    double expected =
        backdrop.expected().stream()
            .flatMap(band -> band.levels().stream())
            .mapToDouble(level -> level.modulusOhm().high())
            .max()
            .orElse(0);
    double fault =
        backdrop.suspectedCurve().stream()
            .flatMap(curve -> curve.points().stream())
            .mapToDouble(ImpedancePoint::modulusOhm)
            .max()
            .orElse(0);
    double both = Math.max(measured, expected);
    return Math.max(both, Math.min(fault, 2 * both));
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
