package conewise.station.planfile;

import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import conewise.analysis.plan.BoxPlan.PlannedDriver;
import conewise.analysis.plan.Wiring;
import conewise.station.files.BadFileException;
import conewise.station.files.Quoted;
import conewise.station.planfile.Fields.Range;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Reads a plan of version 1 from its nodes, noting every mistake. */
final class PlanReader {

  static final List<String> KEYS =
      List.of("plan", "name", "box", "spaces", "drivers", "wiring", "lead_ohm", "limits");
  static final List<String> DRIVER_KEYS = List.of("name", "coil_ohm", "resonance_hz");
  static final List<String> KINDS = List.of("vented", "sealed");
  static final List<String> SPACES = List.of("shared", "separate");
  static final Range VERSION = new Range(1, 1);
  static final Range LEAD_OHM = new Range(0, 10);
  static final Range COIL_OHM = new Range(0.1, 1000);
  static final Range RESONANCE_HZ = new Range(1, 1000);
  static final int LONGEST_NAME = 100;
  static final int LONGEST_DRIVER_NAME = 40;
  static final int MOST_DRIVERS = 16;
  static final int MOST_COILS = 4;

  private final Problems problems;

  PlanReader(Problems problems) {
    this.problems = problems;
  }

  static String word(Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  /** Reads the plan, or throws with all that is wrong with it. */
  BoxPlan read(Node root) throws BadFileException {
    Optional<Fields> fields = Fields.of("", root, KEYS, problems);
    Optional<BoxPlan> plan = fields.flatMap(this::plan);
    problems.throwIfAny();
    return plan.orElseThrow(
        () -> new IllegalStateException("a plan was not read and no problem was noted"));
  }

  private Optional<BoxPlan> plan(Fields fields) {
    fields
        .required("plan", "1, the version of this format")
        .ifPresent(node -> Fields.number("plan", node, VERSION, problems));
    Optional<String> name = fields.text("name", LONGEST_NAME);
    Optional<Kind> kind =
        fields
            .required("box", String.join(" or ", KINDS))
            .flatMap(node -> fields.word("box", node, KINDS))
            .map(word -> Kind.valueOf(word.toUpperCase(Locale.ROOT)));
    Optional<String> spaces =
        fields.optional("spaces").flatMap(node -> fields.word("spaces", node, SPACES));
    List<PlannedDriver> drivers =
        fields.required("drivers", "a list of drivers").map(this::drivers).orElse(List.of());
    Optional<Node> wiringNode = fields.required("wiring", "how the coils are joined");
    Optional<Wiring> wiring =
        drivers.isEmpty()
            ? Optional.empty()
            : wiringNode.flatMap(node -> new WiringReader(drivers, problems).read(node));
    Optional<Double> lead = fields.number("lead_ohm", LEAD_OHM);
    Limits limits =
        fields
            .optional("limits")
            .map(node -> new LimitsReader(problems).read(node, kind))
            .orElseGet(LimitsReader::usual);
    boolean separate = spaces.filter("separate"::equals).isPresent();
    if (separate && drivers.size() == 1) {
      problems.add(
          fields.line("spaces"), "spaces is separate and there is one driver; write shared.");
    }
    if (problems.count() > 0 || name.isEmpty() || kind.isEmpty() || wiring.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new BoxPlan(
            name.get(), kind.get(), drivers, wiring.get(), separate, lead.orElse(0.0), limits));
  }

  /**
   * The drivers; none when any of them has a mistake, since the wiring could not be judged then.
   */
  private List<PlannedDriver> drivers(Node node) {
    if (!(node instanceof Node.Sequence list)
        || list.items().isEmpty()
        || list.items().size() > MOST_DRIVERS) {
      problems.add(
          node.line(),
          "drivers is "
              + node.described()
              + "; allowed is a list of 1 to "
              + MOST_DRIVERS
              + " drivers.");
      return List.of();
    }
    List<PlannedDriver> drivers = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (Node item : list.items()) {
      Fields.of("drivers", item, DRIVER_KEYS, problems)
          .flatMap(fields -> driver(fields, names))
          .ifPresent(drivers::add);
    }
    return drivers.size() == list.items().size() ? drivers : List.of();
  }

  private Optional<PlannedDriver> driver(Fields fields, List<String> names) {
    Optional<String> name =
        fields.text("name", LONGEST_DRIVER_NAME).filter(text -> isFree(fields, text, names));
    Optional<List<Double>> coils =
        fields.required("coil_ohm", "a list such as [3.4, 3.4]").flatMap(this::coils);
    int before = problems.count();
    Optional<Double> resonance = fields.number("resonance_hz", RESONANCE_HZ);
    if (name.isEmpty() || coils.isEmpty() || problems.count() > before) {
      return Optional.empty();
    }
    return Optional.of(new PlannedDriver(name.get(), coils.get(), resonance));
  }

  private boolean isFree(Fields fields, String name, List<String> names) {
    if (!name.matches("[\\p{L}][\\p{L}\\p{N} _-]*")) {
      problems.add(
          fields.line("name"),
          "drivers.name is "
              + Quoted.of(name)
              + "; allowed are a letter first, then letters, digits, blanks, _ and -.");
      return false;
    }
    if (names.contains(name)) {
      problems.add(
          fields.line("name"),
          "drivers.name is " + Quoted.of(name) + " a second time; give each driver its own.");
      return false;
    }
    return names.add(name);
  }

  private Optional<List<Double>> coils(Node node) {
    if (!(node instanceof Node.Sequence list)
        || list.items().isEmpty()
        || list.items().size() > MOST_COILS) {
      problems.add(
          node.line(),
          "drivers.coil_ohm is "
              + node.described()
              + "; allowed is a list of 1 to "
              + MOST_COILS
              + " numbers, such as [3.4, 3.4].");
      return Optional.empty();
    }
    List<Double> ohm = new ArrayList<>();
    for (Node item : list.items()) {
      Fields.number("drivers.coil_ohm", item, COIL_OHM, problems).ifPresent(ohm::add);
    }
    return ohm.size() == list.items().size() ? Optional.of(ohm) : Optional.empty();
  }
}
