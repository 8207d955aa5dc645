package conewise.station.planfile;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.station.files.BadFileException;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads a plan from its nodes, noting every mistake. */
final class PlannedBoxReader {
  static final List<String> KEYS =
      List.of(
          "plan",
          "name",
          "box",
          "driver_kinds",
          "drivers",
          "spaces",
          "vents",
          "passive_radiators",
          "wiring",
          "leads",
          "limits");
  static final List<String> BOXES = List.of("sealed", "vented", "none");
  private static final List<String> IN_FULL = List.of("spaces", "vents", "passive_radiators");
  static final Range VERSION = new Range(2, 2);
  static final Range LEADS_OHM = new Range(0, 10);
  static final int LONGEST_NAME = 100;

  /** Names of what a plan of a box in one word has. */
  private static final String ONLY_SPACE = "main";

  private static final String ONLY_VENT = "vent";

  private final Problems problems;

  PlannedBoxReader(Problems problems) {
    this.problems = problems;
  }

  /** Reads the plan, or throws with all that is wrong with it. */
  PlannedBox read(Node root) throws BadFileException {
    refuseOtherVersions(root);
    problems.throwIfAny();
    Optional<PlannedBox> plan = Fields.of("", root, KEYS, problems).flatMap(this::plan);
    problems.throwIfAny();
    return plan.orElseThrow(
        () -> new IllegalStateException("a plan was not read and no problem was noted"));
  }

  private Optional<PlannedBox> plan(Fields fields) {
    fields.required("plan", "2, the version of this format");
    Optional<String> name = fields.text("name", LONGEST_NAME);
    Optional<String> box = box(fields);
    Names names = new Names(problems);
    AirReader air = new AirReader(names, problems);
    List<PlannedSpace> spaces = box.isPresent() ? spacesOf(box.get()) : air.spaces(fields);
    List<PlannedVent> vents = box.isPresent() ? ventsOf(box.get()) : air.vents(fields, spaces);
    List<PlannedRadiator> radiators = air.radiators(fields, spaces);
    DriversReader drivers = new DriversReader(spaces, names, problems);
    List<PlacedDriver> placed = drivers.read(fields);
    Optional<Circuit> wiring =
        fields
            .required("wiring", "how the coils are joined")
            .filter(node -> drivers.complete())
            .flatMap(
                node -> new CircuitReader(coils(placed, drivers.kinds()), problems).read(node));
    double leads =
        fields
            .exact("leads", Optional.of(Measure.RESISTANCE), LEADS_OHM)
            .map(Figure::value)
            .orElse(0.0);
    if (drivers.complete()) {
      noteIdleSpaces(fields, spaces, placed);
    }
    Demands demands =
        fields
            .optional("limits")
            .map(node -> new DemandsReader(spaces, vents, radiators, problems).read(node))
            .orElse(Demands.NONE);
    if (problems.count() > 0 || name.isEmpty() || wiring.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new PlannedBox(
            name.get(),
            List.copyOf(drivers.kinds().values()),
            placed,
            spaces,
            vents,
            radiators,
            wiring.get(),
            leads,
            demands));
  }

  /** Another version has other keys: of such a file only the version is told. */
  private void refuseOtherVersions(Node root) {
    if (root instanceof Node.Mapping mapping && mapping.entries().containsKey("plan")) {
      Fields.number("plan", mapping.entries().get("plan").value(), VERSION, problems);
    }
  }

  private Optional<String> box(Fields fields) {
    Optional<Node> node = fields.optional("box");
    Optional<String> inFull = IN_FULL.stream().filter(fields::has).findFirst();
    if (node.isPresent() && inFull.isPresent()) {
      problems.add(
          fields.line("box"),
          "box says in one word what " + inFull.get() + " says in full; keep one of the two.");
    } else if (node.isEmpty() && !fields.has("spaces")) {
      problems.add(
          fields.line(),
          "box and spaces are missing; add one: spaces, or box in one word, "
              + String.join(" or ", BOXES)
              + ".");
    }
    return node.flatMap(each -> fields.word("box", each, BOXES));
  }

  private static List<PlannedSpace> spacesOf(String box) {
    return box.equals("none")
        ? List.of()
        : List.of(new PlannedSpace(ONLY_SPACE, Optional.empty(), false));
  }

  private static List<PlannedVent> ventsOf(String box) {
    return box.equals("vented")
        ? List.of(new PlannedVent(ONLY_VENT, ONLY_SPACE, Space.OUTSIDE, Optional.empty()))
        : List.of();
  }

  private static Map<String, Integer> coils(
      List<PlacedDriver> drivers, Map<String, DriverKind> kinds) {
    Map<String, Integer> coils = new LinkedHashMap<>();
    drivers.forEach(each -> coils.put(each.name(), kinds.get(each.kind()).coilOhm().size()));
    return coils;
  }

  private void noteIdleSpaces(
      Fields fields, List<PlannedSpace> spaces, List<PlacedDriver> drivers) {
    for (PlannedSpace space : spaces) {
      boolean worked =
          drivers.stream()
              .anyMatch(d -> d.behind().equals(space.name()) || d.before().equals(space.name()));
      if (!worked) {
        problems.add(
            fields.line("spaces"),
            "no driver works on the space "
                + space.name()
                + "; say it in behind or before of a driver, or take the space out.");
      }
    }
  }
}
