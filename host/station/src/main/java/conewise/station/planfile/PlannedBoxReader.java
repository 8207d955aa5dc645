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
import conewise.station.planfile.Fields.Range;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads a plan of version 2 from its nodes, noting every mistake. */
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
  static final List<String> BOXES = List.of("sealed", "vented");
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
    Optional<PlannedBox> plan = Fields.of("", root, KEYS, problems).flatMap(this::plan);
    problems.throwIfAny();
    return plan.orElseThrow(
        () -> new IllegalStateException("a plan was not read and no problem was noted"));
  }

  private Optional<PlannedBox> plan(Fields fields) {
    fields
        .required("plan", "2, the version of this format")
        .ifPresent(node -> Fields.number("plan", node, VERSION, problems));
    Optional<String> name = fields.text("name", LONGEST_NAME);
    Optional<String> box = fields.optional("box").flatMap(node -> fields.word("box", node, BOXES));
    if (box.isPresent() && (fields.has("spaces") || fields.has("vents"))) {
      problems.add(
          fields.line("box"),
          "box says in one word what spaces and vents say in full; keep one of the two.");
    }
    AirReader air = new AirReader(problems);
    List<PlannedSpace> spaces =
        box.isPresent()
            ? List.of(new PlannedSpace(ONLY_SPACE, Optional.empty(), false))
            : air.spaces(fields);
    List<PlannedVent> vents = box.isPresent() ? ventsOf(box.get()) : air.vents(fields, spaces);
    List<PlannedRadiator> radiators = air.radiators(fields, spaces);
    DriversReader drivers = new DriversReader(spaces, problems);
    List<PlacedDriver> placed = drivers.read(fields);
    Optional<Circuit> wiring =
        fields
            .required("wiring", "how the coils are joined")
            .filter(node -> !placed.isEmpty())
            .flatMap(
                node -> new CircuitReader(coils(placed, drivers.kinds()), problems).read(node));
    double leads =
        fields
            .figure("leads", Optional.of(Measure.RESISTANCE), LEADS_OHM)
            .map(Figure::value)
            .orElse(0.0);
    noteIdleSpaces(fields, spaces, placed);
    Demands demands =
        fields
            .optional("limits")
            .map(node -> new DemandsReader(spaces, vents, problems).read(node))
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
          drivers.isEmpty()
              || drivers.stream()
                  .anyMatch(
                      d -> d.behind().equals(space.name()) || d.before().equals(space.name()));
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
