package conewise.station.planfile;

import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import conewise.station.planfile.Fields.Range;
import java.util.List;
import java.util.Optional;

/** Reads the limits of a plan: single numbers, and pairs of {@code low} and {@code high}. */
final class LimitsReader {

  static final List<String> KEYS =
      List.of(
          "dc_resistance_ohm",
          "dc_tolerance_percent",
          "rated_impedance_ohm",
          "tuning_hz",
          "resonance_hz",
          "dip_ratio",
          "peak_ratio");

  /** The tolerance of a DC resistance that is derived from the coils, where the plan says none. */
  static final double USUAL_TOLERANCE_PERCENT = 10;

  static final Range PERCENT = new Range(0.1, 50);
  static final Range OHM = new Range(0.01, 1000);
  static final Range RATED_OHM = new Range(0.5, 1000);
  static final Range HERTZ = new Range(1, 1000);
  static final Range RATIO = new Range(0.1, 1000);

  private static final List<String> PAIR = List.of("low", "high");

  private final Problems problems;

  LimitsReader(Problems problems) {
    this.problems = problems;
  }

  /** No limit but that of the derived DC resistance. */
  static Limits usual() {
    return limits(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  /**
   * Reads the limits.
   *
   * @param kind the kind of box, empty when the plan failed to say it
   */
  Limits read(Node node, Optional<Kind> kind) {
    Optional<Fields> group = Fields.of("limits", node, KEYS, problems);
    if (group.isEmpty()) {
      return usual();
    }
    Fields fields = group.get();
    if (fields.has("dc_resistance_ohm") && fields.has("dc_tolerance_percent")) {
      problems.add(
          fields.line("dc_tolerance_percent"),
          "limits has dc_resistance_ohm and dc_tolerance_percent; keep one of the two.");
    }
    refuseForeign(fields, kind, Kind.VENTED, List.of("tuning_hz", "dip_ratio"));
    refuseForeign(fields, kind, Kind.SEALED, List.of("resonance_hz"));
    return limits(
        interval(fields, "dc_resistance_ohm", OHM),
        fields.number("dc_tolerance_percent", PERCENT),
        fields.number("rated_impedance_ohm", RATED_OHM),
        interval(fields, "tuning_hz", HERTZ),
        interval(fields, "resonance_hz", HERTZ),
        interval(fields, "dip_ratio", RATIO),
        interval(fields, "peak_ratio", RATIO));
  }

  private static Limits limits(
      Optional<Interval> dcOhm,
      Optional<Double> tolerancePercent,
      Optional<Double> ratedOhm,
      Optional<Interval> tuningHz,
      Optional<Interval> resonanceHz,
      Optional<Interval> dipRatio,
      Optional<Interval> peakRatio) {
    return new Limits(
        dcOhm,
        tolerancePercent.orElse(USUAL_TOLERANCE_PERCENT) / 100,
        ratedOhm,
        tuningHz,
        resonanceHz,
        dipRatio,
        peakRatio);
  }

  private void refuseForeign(Fields fields, Optional<Kind> kind, Kind meantFor, List<String> keys) {
    if (kind.isEmpty() || kind.get() == meantFor) {
      return;
    }
    for (String key : keys) {
      if (fields.has(key)) {
        problems.add(
            fields.line(key),
            fields.where(key)
                + " belongs to a "
                + PlanReader.word(meantFor)
                + " box and this one is "
                + PlanReader.word(kind.get())
                + "; take it out, or change box.");
      }
    }
  }

  private Optional<Interval> interval(Fields limits, String key, Range range) {
    Optional<Fields> group =
        limits.optional(key).flatMap(node -> Fields.of(limits.where(key), node, PAIR, problems));
    if (group.isEmpty()) {
      return Optional.empty();
    }
    Fields pair = group.get();
    Optional<Double> low = pair.number("low", range);
    Optional<Double> high = pair.number("high", range);
    if (!pair.has("low") && !pair.has("high")) {
      problems.add(
          pair.line(), limits.where(key) + " has neither low nor high; give one of them or both.");
      return Optional.empty();
    }
    if (low.isPresent() && high.isPresent() && low.get() > high.get()) {
      problems.add(
          pair.line(),
          limits.where(key)
              + " has low "
              + low.get()
              + " above high "
              + high.get()
              + "; exchange or mend them.");
      return Optional.empty();
    }
    return Optional.of(
        new Interval(low.orElse(Double.NEGATIVE_INFINITY), high.orElse(Double.POSITIVE_INFINITY)));
  }
}
