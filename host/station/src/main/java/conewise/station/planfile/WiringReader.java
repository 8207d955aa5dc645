package conewise.station.planfile;

import conewise.analysis.plan.BoxPlan.PlannedDriver;
import conewise.analysis.plan.Wiring;
import conewise.station.files.Nearest;
import conewise.station.files.Quoted;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads how the coils are joined: {@code series: [...]}, {@code parallel: [...]}, and as leaves
 * {@code driver.number}, or {@code driver} alone where it has one coil. Each coil is used exactly
 * once.
 */
final class WiringReader {

  static final List<String> KEYS = List.of("series", "parallel");
  static final int FEWEST_PARTS = 2;

  private final List<PlannedDriver> drivers;
  private final Problems problems;
  private final Map<Wiring.Coil, Integer> lines = new LinkedHashMap<>();

  WiringReader(List<PlannedDriver> drivers, Problems problems) {
    this.drivers = drivers;
    this.problems = problems;
  }

  Optional<Wiring> read(Node node) {
    int before = problems.count();
    Optional<Wiring> wiring = part(node);
    if (problems.count() == before) {
      noteUnused(node.line());
    }
    return wiring;
  }

  private Optional<Wiring> part(Node node) {
    if (node instanceof Node.Scalar scalar && scalar.kind() == Node.Scalar.Kind.TEXT) {
      return coil(scalar);
    }
    if (!(node instanceof Node.Mapping mapping) || mapping.entries().size() != 1) {
      problems.add(
          node.line(),
          "wiring has "
              + node.described()
              + "; allowed is a coil such as "
              + example()
              + ", or one key, series or parallel, with a list.");
      return Optional.empty();
    }
    return Fields.of("wiring", node, KEYS, problems).flatMap(this::joined);
  }

  private Optional<Wiring> joined(Fields fields) {
    Optional<String> word = KEYS.stream().filter(fields::has).findFirst();
    if (word.isEmpty()) {
      return Optional.empty();
    }
    Node list = fields.optional(word.get()).orElseThrow();
    if (!(list instanceof Node.Sequence sequence) || sequence.items().size() < FEWEST_PARTS) {
      problems.add(
          list.line(),
          "wiring."
              + word.get()
              + " is "
              + list.described()
              + "; allowed is a list of 2 parts or more.");
      return Optional.empty();
    }
    List<Wiring> parts = new ArrayList<>();
    sequence.items().forEach(item -> part(item).ifPresent(parts::add));
    if (parts.size() < sequence.items().size()) {
      return Optional.empty();
    }
    return Optional.of(
        word.get().equals("series") ? new Wiring.Series(parts) : new Wiring.Parallel(parts));
  }

  private Optional<Wiring> coil(Node.Scalar scalar) {
    String text = scalar.text().strip();
    int dot = text.lastIndexOf('.');
    String name = dot < 0 ? text : text.substring(0, dot);
    Optional<PlannedDriver> driver =
        drivers.stream().filter(d -> d.name().equals(name)).findFirst();
    if (driver.isEmpty()) {
      List<String> names = drivers.stream().map(PlannedDriver::name).toList();
      String hint = Nearest.to(name, names).map(near -> "; " + near + " is near").orElse("");
      problems.add(
          scalar.line(),
          "wiring names the driver "
              + Quoted.of(name)
              + ", which the plan lacks"
              + hint
              + "; allowed are "
              + String.join(", ", names)
              + ".");
      return Optional.empty();
    }
    return numbered(scalar, driver.get(), dot < 0 ? "" : text.substring(dot + 1));
  }

  private Optional<Wiring> numbered(Node.Scalar scalar, PlannedDriver driver, String number) {
    int coils = driver.coilOhm().size();
    boolean single = number.isEmpty() && coils == 1 && scalar.text().indexOf('.') < 0;
    if (!single && !(number.matches("[1-9]") && Integer.parseInt(number) <= coils)) {
      problems.add(
          scalar.line(),
          "wiring names the coil "
              + Quoted.of(scalar.text())
              + "; "
              + driver.name()
              + " has "
              + (coils == 1 ? "1 coil" : coils + " coils")
              + ": write "
              + driver.name()
              + ".1"
              + (coils == 1 ? "." : " to " + driver.name() + "." + coils + "."));
      return Optional.empty();
    }
    Wiring.Coil coil = new Wiring.Coil(driver.name(), single ? 1 : Integer.parseInt(number));
    Integer before = lines.putIfAbsent(coil, scalar.line());
    if (before != null) {
      problems.add(
          scalar.line(),
          "wiring uses the coil "
              + Quoted.of(scalar.text())
              + " again (first on line "
              + before
              + "); each coil is used once.");
      return Optional.empty();
    }
    return Optional.of(coil);
  }

  private void noteUnused(int line) {
    for (PlannedDriver driver : drivers) {
      for (int number = 1; number <= driver.coilOhm().size(); number++) {
        if (!lines.containsKey(new Wiring.Coil(driver.name(), number))) {
          problems.add(
              line,
              "wiring never uses the coil "
                  + Quoted.of(driver.name() + "." + number)
                  + "; join every coil, or take it out of coil_ohm.");
        }
      }
    }
  }

  private String example() {
    return drivers.isEmpty() ? "upper.1" : drivers.get(0).name() + ".1";
  }
}
