package conewise.station.planfile;

import conewise.analysis.model.Space;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.station.files.Nearest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads the kinds of driver, and the drivers in their places. */
final class DriversReader {
  static final List<String> KIND_KEYS = with("name");
  static final List<String> DRIVER_KEYS = with("name", "names", "kind", "behind", "before");

  static final int MOST_DRIVERS = 8;
  static final int MOST_KINDS = 16;

  private final List<String> spaces;
  private final Problems problems;
  private final Map<String, DriverKind> kinds = new LinkedHashMap<>();

  DriversReader(List<PlannedSpace> spaces, Problems problems) {
    this.spaces = spaces.stream().map(PlannedSpace::name).toList();
    this.problems = problems;
  }

  private static List<String> with(String... more) {
    List<String> keys = new ArrayList<>(List.of(more));
    keys.addAll(KindReader.KEYS);
    return List.copyOf(keys);
  }

  /** The kinds that were read, by their names. */
  Map<String, DriverKind> kinds() {
    return kinds;
  }

  List<PlacedDriver> read(Fields plan) {
    readKinds(plan);
    plan.required("drivers", "a list of drivers");
    Names names = new Names(problems);
    List<PlacedDriver> placed = new ArrayList<>();
    for (Node node : plan.list("drivers", MOST_DRIVERS)) {
      Fields.of("drivers", node, DRIVER_KEYS, problems)
          .ifPresent(fields -> placed.addAll(drivers(fields, names)));
    }
    if (placed.isEmpty() && problems.count() == 0) {
      problems.add(plan.line(), "drivers is an empty list; a box has at least 1 driver.");
    } else if (placed.size() > MOST_DRIVERS) {
      problems.add(
          plan.line("drivers"),
          "drivers has " + placed.size() + " drivers; at most " + MOST_DRIVERS + " are allowed.");
    }
    return placed;
  }

  private void readKinds(Fields plan) {
    Names names = new Names(problems);
    for (Node node : plan.list("driver_kinds", MOST_KINDS)) {
      Fields.of("driver_kinds", node, KIND_KEYS, problems)
          .ifPresent(
              fields ->
                  names
                      .fresh(fields)
                      .flatMap(name -> new KindReader(problems).read(name, fields))
                      .ifPresent(kind -> kinds.put(kind.name(), kind)));
    }
  }

  private List<PlacedDriver> drivers(Fields fields, Names names) {
    List<String> named = named(fields, names);
    Optional<String> kind = kind(fields, named);
    String usual = spaces.isEmpty() ? Space.OUTSIDE : spaces.size() == 1 ? spaces.get(0) : "";
    Optional<String> behind = Names.space(fields, "behind", spaces, usual, problems);
    Optional<String> before = Names.space(fields, "before", spaces, Space.OUTSIDE, problems);
    if (behind.isPresent() && behind.equals(before) && !behind.get().equals(Space.OUTSIDE)) {
      problems.add(
          fields.line(), "both sides of the driver are in " + behind.get() + "; they must differ.");
      return List.of();
    }
    if (kind.isEmpty() || behind.isEmpty() || before.isEmpty()) {
      return List.of();
    }
    return named.stream()
        .map(name -> new PlacedDriver(name, kind.get(), behind.get(), before.get()))
        .toList();
  }

  private List<String> named(Fields fields, Names names) {
    if (fields.has("names") == fields.has("name")) {
      problems.add(
          fields.line(), "drivers needs a name, or a list of names for like drivers, not both.");
      return List.of();
    }
    if (fields.has("name")) {
      return names.fresh(fields).stream().toList();
    }
    List<String> list = new ArrayList<>();
    for (Node node : fields.list("names", MOST_DRIVERS)) {
      if (node instanceof Node.Scalar scalar && names.isFresh(fields, "names", scalar.text())) {
        list.add(scalar.text());
      } else if (!(node instanceof Node.Scalar)) {
        problems.add(node.line(), "drivers.names has " + node.described() + "; allowed are names.");
      }
    }
    return list;
  }

  private Optional<String> kind(Fields fields, List<String> named) {
    Optional<Node> node = fields.optional("kind");
    if (node.isEmpty()) {
      if (named.isEmpty()) {
        return Optional.empty();
      }
      return new KindReader(problems)
          .read("kind of " + named.get(0), fields)
          .map(
              kind -> {
                kinds.put(kind.name(), kind);
                return kind.name();
              });
    }
    for (String key : KindReader.KEYS) {
      if (fields.has(key)) {
        problems.add(
            fields.line(key),
            "drivers has kind and " + key + "; what its kind has stands in driver_kinds.");
      }
    }
    if (node.get() instanceof Node.Scalar scalar && kinds.containsKey(scalar.text())) {
      return Optional.of(scalar.text());
    }
    String text = node.get() instanceof Node.Scalar scalar ? scalar.text() : "";
    List<String> known = List.copyOf(kinds.keySet());
    problems.add(
        node.get().line(),
        "drivers.kind is "
            + node.get().described()
            + Nearest.to(text, known).map(near -> "; " + near + " is near").orElse("")
            + "; "
            + (known.isEmpty()
                ? "driver_kinds has none."
                : "allowed are " + String.join(", ", known) + "."));
    return Optional.empty();
  }
}
