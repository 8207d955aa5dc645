package conewise.station.planfile;

import conewise.analysis.model.Space;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.station.files.Nearest;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Reads the kinds of driver, and the drivers in their places. */
final class DriversReader {
  static final List<String> KIND_KEYS = with("name");
  static final List<String> DRIVER_KEYS = with("name", "names", "kind", "behind", "before");

  static final int MOST_DRIVERS = 8;
  static final int MOST_KINDS = 16;

  private final List<String> spaces;
  private final Names names;
  private final Problems problems;
  private final Map<String, DriverKind> kinds = new LinkedHashMap<>();
  private final Set<String> spoiltKinds = new HashSet<>();
  private boolean complete = true;

  /**
   * A reader.
   *
   * @param spaces the spaces of the box
   * @param names takes the names of the drivers
   */
  DriversReader(List<PlannedSpace> spaces, Names names, Problems problems) {
    this.names = names;
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

  /** Whether each driver could be read; where not, what refers to drivers cannot be checked. */
  boolean complete() {
    return complete;
  }

  List<PlacedDriver> read(Fields plan) {
    readKinds(plan);
    plan.required("drivers", "a list of drivers");
    List<PlacedDriver> placed = new ArrayList<>();
    for (Node node : plan.list("drivers", MOST_DRIVERS)) {
      List<PlacedDriver> drivers =
          Fields.of("drivers", node, DRIVER_KEYS, problems).map(this::drivers).orElse(List.of());
      complete &= !drivers.isEmpty();
      placed.addAll(drivers);
    }
    complete &= !placed.isEmpty();
    if (plan.optional("drivers").filter(Node::isEmptyList).isPresent()) {
      problems.add(plan.line("drivers"), "drivers is an empty list; a box has at least 1 driver.");
    } else if (placed.size() > MOST_DRIVERS) {
      problems.add(
          plan.line("drivers"),
          "drivers has " + placed.size() + " drivers; at most " + MOST_DRIVERS + " are allowed.");
    }
    return placed;
  }

  private void readKinds(Fields plan) {
    Names kindNames = new Names(problems);
    for (Node node : plan.list("driver_kinds", MOST_KINDS)) {
      Fields.of("driver_kinds", node, KIND_KEYS, problems)
          .ifPresent(
              fields ->
                  kindNames
                      .fresh(fields)
                      .ifPresent(
                          name ->
                              new KindReader(problems)
                                  .read(name, fields)
                                  .ifPresentOrElse(
                                      kind -> kinds.put(name, kind), () -> spoiltKinds.add(name))));
    }
  }

  private List<PlacedDriver> drivers(Fields fields) {
    List<String> named = named(fields);
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

  private List<String> named(Fields fields) {
    if (fields.has("names") == fields.has("name")) {
      problems.add(
          fields.line(), "drivers needs a name, or a list of names for like drivers, not both.");
      return List.of();
    }
    if (fields.has("name")) {
      return names.fresh(fields).stream().toList();
    }
    if (fields.optional("names").filter(Node::isEmptyList).isPresent()) {
      problems.add(fields.line("names"), "drivers.names is an empty list; name at least 1 driver.");
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
      return inline(fields, named.get(0));
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
    if (spoiltKinds.contains(text)) {
      return Optional.empty();
    }
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

  /** A kind that stands where the driver does, and goes by the driver's name. */
  private Optional<String> inline(Fields fields, String name) {
    if (kinds.containsKey(name)) {
      problems.add(
          fields.line(),
          "drivers has "
              + name
              + " without kind, and driver_kinds has one of that name; write kind: "
              + name
              + ", or give the driver another name.");
      return Optional.empty();
    }
    Optional<DriverKind> kind = new KindReader(problems).read(name, fields);
    kind.ifPresent(each -> kinds.put(name, each));
    return kind.map(DriverKind::name);
  }
}
