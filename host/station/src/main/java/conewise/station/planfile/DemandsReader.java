package conewise.station.planfile;

import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.station.planfile.Fields.Range;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;

/** Reads what must hold: pairs of {@code low} and {@code high}, and single figures. */
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

  private final List<String> vented;
  private final List<String> closed;
  private final List<String> all;
  private final Problems problems;

  DemandsReader(List<PlannedSpace> spaces, List<PlannedVent> vents, Problems problems) {
    this.problems = problems;
    vented = vents.stream().map(PlannedVent::behind).distinct().toList();
    all = spaces.stream().map(PlannedSpace::name).toList();
    closed = all.stream().filter(name -> !vented.contains(name)).toList();
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
            .flatMap(n -> pair(fields.where("dc_resistance"), n, Measure.RESISTANCE, OHM)),
        fields
            .optional("dc_tolerance")
            .flatMap(n -> percent(fields.where("dc_tolerance"), n))
            .orElse(Demands.USUAL_DC_TOLERANCE),
        fields
            .figure("rated_impedance", Optional.of(Measure.RESISTANCE), RATED_OHM)
            .map(Figure::value),
        bySpace(fields, "tuning", vented, (w, n) -> pair(w, n, Measure.FREQUENCY, HERTZ)),
        bySpace(fields, "closed_resonance", closed, (w, n) -> pair(w, n, Measure.FREQUENCY, HERTZ)),
        bySpace(fields, "least_loss_q", all, this::quality));
  }

  private Optional<Double> quality(String where, Node node) {
    return Fields.figure(where, node, Optional.empty(), QUALITY, problems).map(Figure::value);
  }

  /** {@code 8 %}, as a fraction. */
  private Optional<Double> percent(String where, Node node) {
    if (node instanceof Node.Scalar scalar) {
      String text = scalar.text().strip();
      if (text.endsWith("%")) {
        Node number =
            new Node.Scalar(
                node.line(), text.substring(0, text.length() - 1).strip(), Node.Scalar.Kind.NUMBER);
        return Fields.number(where, number, PERCENT, problems).map(each -> each / 100);
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
      problems.add(
          limits.line(key),
          limits.where(key)
              + " is asked, and no space of the plan "
              + (key.equals("tuning") ? "has a vent" : "is of that kind")
              + "; take it out.");
      return found;
    }
    boolean named =
        node.get() instanceof Node.Mapping mapping
            && mapping.entries().keySet().stream().noneMatch(PAIR::contains);
    if (!named && spaces.size() == 1) {
      limit.apply(limits.where(key), node.get()).ifPresent(each -> found.put(spaces.get(0), each));
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

  private Optional<Interval> pair(String where, Node node, Measure measure, Range range) {
    Optional<Fields> group = Fields.of(where, node, PAIR, problems);
    if (group.isEmpty()) {
      return Optional.empty();
    }
    Fields pair = group.get();
    Optional<Figure> low = pair.figure("low", Optional.of(measure), range);
    Optional<Figure> high = pair.figure("high", Optional.of(measure), range);
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
