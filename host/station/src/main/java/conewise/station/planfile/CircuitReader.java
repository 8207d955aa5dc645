package conewise.station.planfile;

import conewise.analysis.model.Circuit;
import conewise.station.files.Nearest;
import conewise.station.files.Quoted;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Reads how the coils are joined: {@code series: [...]}, {@code parallel: [...]}, {@code reversed:
 * part} for what is meant to be the other way round, and as leaves {@code driver.number}, or {@code
 * driver} for all coils of one that has one. Each coil is used exactly once.
 */
final class CircuitReader {
  static final int FEWEST_PARTS = 2;
  static final List<String> KEYS = List.of("series", "parallel", "reversed");

  private final Map<String, Integer> coilsOfDriver;
  private final Problems problems;
  private final Map<Circuit.Coil, Integer> lines = new LinkedHashMap<>();

  /**
   * A reader.
   *
   * @param coilsOfDriver how many coils each driver has
   */
  CircuitReader(Map<String, Integer> coilsOfDriver, Problems problems) {
    this.coilsOfDriver = coilsOfDriver;
    this.problems = problems;
  }

  Optional<Circuit> read(Node node) {
    int before = problems.count();
    Optional<Circuit> circuit = part(node);
    if (problems.count() == before) {
      noteUnused(node.line());
    }
    return circuit;
  }

  private Optional<Circuit> part(Node node) {
    if (node instanceof Node.Scalar scalar && scalar.kind() != Node.Scalar.Kind.OTHER) {
      return coil(scalar);
    }
    if (!(node instanceof Node.Mapping mapping) || mapping.entries().size() != 1) {
      problems.add(
          node.line(),
          "wiring has "
              + node.described()
              + "; allowed is a coil such as "
              + example()
              + ", or one key: series or parallel with a list, reversed with a part.");
      return Optional.empty();
    }
    return Fields.of("wiring", node, KEYS, problems).flatMap(this::joined);
  }

  private Optional<Circuit> joined(Fields fields) {
    if (fields.has("reversed")) {
      return part(fields.optional("reversed").orElseThrow())
          .map(
              circuit ->
                  circuit.withCoils(c -> new Circuit.Coil(c.driver(), c.number(), !c.reversed())));
    }
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
    List<Circuit> parts = new ArrayList<>();
    sequence.items().forEach(item -> part(item).ifPresent(parts::add));
    if (parts.size() < sequence.items().size()) {
      return Optional.empty();
    }
    return Optional.of(
        word.get().equals("series") ? new Circuit.Series(parts) : new Circuit.Parallel(parts));
  }

  private Optional<Circuit> coil(Node.Scalar scalar) {
    String text = scalar.text().strip();
    if (coilsOfDriver.containsKey(text) && coilsOfDriver.get(text) == 1) {
      return used(scalar, text, 1);
    }
    int dot = text.lastIndexOf('.');
    String name = dot < 0 ? text : text.substring(0, dot);
    Integer coils = coilsOfDriver.get(name);
    if (coils == null) {
      String hint =
          Nearest.to(name, List.copyOf(coilsOfDriver.keySet()))
              .map(near -> "; " + near + " is near")
              .orElse("");
      problems.add(
          scalar.line(),
          "wiring names the driver "
              + Quoted.of(name)
              + ", which the plan lacks"
              + hint
              + "; allowed are "
              + String.join(", ", coilsOfDriver.keySet())
              + ".");
      return Optional.empty();
    }
    String number = dot < 0 ? "" : text.substring(dot + 1);
    if (!number.matches("[1-9]") || Integer.parseInt(number) > coils) {
      problems.add(
          scalar.line(),
          "wiring names the coil "
              + Quoted.of(text)
              + "; "
              + name
              + " has "
              + (coils == 1 ? "1 coil" : coils + " coils")
              + ": write "
              + name
              + ".1"
              + (coils == 1 ? "." : " to " + name + "." + coils + "."));
      return Optional.empty();
    }
    return used(scalar, name, Integer.parseInt(number));
  }

  private Optional<Circuit> used(Node.Scalar scalar, String driver, int number) {
    Circuit.Coil coil = new Circuit.Coil(driver, number, false);
    Integer before = lines.putIfAbsent(coil, scalar.line());
    if (before == null) {
      return Optional.of(coil);
    }
    problems.add(
        scalar.line(),
        "wiring uses the coil "
            + Quoted.of(scalar.text())
            + " again (first on line "
            + before
            + "); each coil is used once.");
    return Optional.empty();
  }

  private void noteUnused(int line) {
    coilsOfDriver.forEach(
        (driver, coils) -> {
          for (int number = 1; number <= coils; number++) {
            if (!lines.containsKey(new Circuit.Coil(driver, number, false))) {
              problems.add(
                  line,
                  "wiring never uses the coil "
                      + Quoted.of(driver + "." + number)
                      + "; join every coil, or take it out of coils.");
            }
          }
        });
  }

  private String example() {
    return coilsOfDriver.isEmpty() ? "upper.1" : coilsOfDriver.keySet().iterator().next() + ".1";
  }
}
