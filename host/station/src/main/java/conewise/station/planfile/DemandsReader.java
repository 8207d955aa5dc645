package conewise.station.planfile;

import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;

/** Reads what must hold: pairs of {@code low} and {@code high}, or figures. */
final class DemandsReader {
  static final List<String> KEYS =
      List.of(
          "dc_resistance",
          "dc_tolerance",
          "rated_impedance",
          "tuning",
          "closed_resonance",
          "least_loss_q");
  static final List<String> PAIR = List.of("low", "high");

  private static final Range OHM = new Range(0.01, 1000);
  private static final Range RATED_OHM = new Range(0.5, 1000);
  private static final Range HERTZ = new Range(1, 1000);
  private static final Range QUALITY = new Range(0.5, 1000);
  private static final Range PERCENT = new Range(0.1, 50);

  private final List<String> tuned;
  private final List<String> closed;
  private final List<String> all;
  private final Problems problems;

  /** False where spaces or vents may be missing for mistakes of theirs. */
  private final boolean airIsClear;

  DemandsReader(
      List<PlannedSpace> spaces,
      List<PlannedVent> vents,
      List<PlannedRadiator> radiators,
      Problems problems) {
    this.problems = problems;
    airIsClear = problems.count() == 0;
    all = spaces.stream().map(PlannedSpace::name).toList();
    Set<String> behind = new HashSet<>();
    vents.forEach(vent -> behind.add(vent.behind()));
    radiators.forEach(radiator -> behind.add(radiator.behind()));
    Set<String> touched = new HashSet<>(behind);
    vents.forEach(vent -> touched.add(vent.before()));
    radiators.forEach(radiator -> touched.add(radiator.before()));
    tuned = all.stream().filter(behind::contains).toList();
    closed = all.stream().filter(name -> !touched.contains(name)).toList();
  }

  Demands read(Node node) {
    Optional<Fields> group = Fields.of("limits", node, KEYS, problems);
    if (group.isEmpty()) {
      return Demands.NONE;
    }
    Fields fields = group.get();
    if (fields.has("dc_resistance") && fields.has("dc_tolerance")) {
      problems.add(
          fields.line("dc_tolerance"),
          "limits has dc_resistance and dc_tolerance; keep one of the two.");
    }
    return new Demands(
        fields
            .optional("dc_resistance")
            .flatMap(n -> limits(fields.where("dc_resistance"), n, Measure.RESISTANCE, OHM)),
        fields
            .optional("dc_tolerance")
            .flatMap(n -> percent(fields.where("dc_tolerance"), n))
            .orElse(Demands.USUAL_DC_TOLERANCE),
        fields
            .exact("rated_impedance", Optional.of(Measure.RESISTANCE), RATED_OHM)
            .map(Figure::value),
        bySpace(fields, "tuning", tuned, (w, n) -> limits(w, n, Measure.FREQUENCY, HERTZ)),
        bySpace(
            fields, "closed_resonance", closed, (w, n) -> limits(w, n, Measure.FREQUENCY, HERTZ)),
        bySpace(fields, "least_loss_q", all, this::quality));
  }

  private Optional<Double> quality(String where, Node node) {
    return Fields.exact(where, node, Optional.empty(), QUALITY, problems).map(Figure::value);
  }

  /** {@code 8 %}, as a fraction. */
  private Optional<Double> percent(String where, Node node) {
    if (node instanceof Node.Scalar scalar) {
      String text = scalar.text().strip();
      if (text.endsWith("%")) {
        Node number =
            new Node.Scalar(
                node.line(), text.substring(0, text.length() - 1).strip(), Node.Scalar.Kind.NUMBER);
        return Fields.number(where, number, PERCENT, problems)
            .map(each -> Figure.fraction(each.toString()));
      }
    }
    problems.add(
        node.line(), where + " is " + node.described() + "; allowed is a percentage, such as 8 %.");
    return Optional.empty();
  }

  /** A limit for the one space that it can be meant for, or a limit for each of several by name. */
  private <T> Map<String, T> bySpace(
      Fields limits, String key, List<String> spaces, BiFunction<String, Node, Optional<T>> limit) {
    Optional<Node> node = limits.optional(key);
    Map<String, T> found = new LinkedHashMap<>();
    if (node.isEmpty()) {
      return found;
    }
    if (spaces.isEmpty()) {
      if (airIsClear) {
        noteNoSpace(limits, key);
      }
      return found;
    }
    boolean named =
        node.get() instanceof Node.Mapping mapping
            && mapping.entries().keySet().stream().noneMatch(PAIR::contains);
    if (!named && spaces.size() == 1) {
      limit.apply(limits.where(key), node.get()).ifPresent(each -> found.put(spaces.get(0), each));
      return found;
    }
    if (!named || ((Node.Mapping) node.get()).entries().isEmpty()) {
      problems.add(
          node.get().line(),
          limits.where(key)
              + " does not say which space it is for; write a group with a limit for each: "
              + String.join(", ", spaces)
              + ".");
      return found;
    }
    Fields.of(limits.where(key), node.get(), spaces, problems)
        .ifPresent(
            group ->
                spaces.stream()
                    .filter(group::has)
                    .forEach(
                        space ->
                            limit
                                .apply(group.where(space), group.optional(space).orElseThrow())
                                .ifPresent(each -> found.put(space, each))));
    return found;
  }

  private void noteNoSpace(Fields limits, String key) {
    problems.add(
        limits.line(key),
        limits.where(key)
            + " is asked, and no space of the plan "
            + (key.equals("tuning") ? "has a vent or a passive radiator" : "is closed")
            + "; take it out.");
  }

  /** {@code {low: 32 Hz, high: 36 Hz}}, or {@code 34 Hz +- 5 %}. */
  private Optional<Interval> limits(String where, Node node, Measure measure, Range range) {
    if (!(node instanceof Node.Scalar)) {
      return pair(where, node, measure, range);
    }
    Optional<Figure> middle = Fields.figure(where, node, Optional.of(measure), range, problems);
    if (middle.isPresent() && middle.get().tolerance().isEmpty()) {
      problems.add(
          node.line(),
          where
              + " is "
              + node.described()
              + "; a limit needs low and high, or a tolerance such as +- 5 %.");
      return Optional.empty();
    }
    if (middle.isPresent() && middle.get().tolerance().getAsDouble() >= 1) {
      problems.add(
          node.line(), where + " is " + node.described() + "; a limit's tolerance is below 100 %.");
      return Optional.empty();
    }
    return middle.map(Figure::limits);
  }

  private Optional<Interval> pair(String where, Node node, Measure measure, Range range) {
    Optional<Fields> group = Fields.of(where, node, PAIR, problems);
    if (group.isEmpty()) {
      return Optional.empty();
    }
    Fields pair = group.get();
    Optional<Figure> low = pair.exact("low", Optional.of(measure), range);
    Optional<Figure> high = pair.exact("high", Optional.of(measure), range);
    if (!pair.has("low") && !pair.has("high")) {
      problems.add(pair.line(), where + " has neither low nor high; give one of them or both.");
      return Optional.empty();
    }
    if (low.isPresent() && high.isPresent() && low.get().value() > high.get().value()) {
      problems.add(pair.line(), where + " has low above high; exchange or mend them.");
      return Optional.empty();
    }
    return Optional.of(
        new Interval(
            low.map(Figure::value).orElse(Double.NEGATIVE_INFINITY),
            high.map(Figure::value).orElse(Double.POSITIVE_INFINITY)));
  }
}
