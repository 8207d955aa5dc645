package conewise.station.planfile;

import conewise.analysis.model.Circuit;
import conewise.analysis.outcome.Outcome;
import conewise.station.files.BadFileException;
import conewise.station.files.Quoted;
import conewise.station.keyedtext.KeyedText;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.util.LinkedHashMap;
import java.util.Map;

/** A wiring that is typed by itself, in the words of a plan; its coils are those that it names. */
public final class TypedWiring {
  /** Far more than any box needs. */
  private static final int MOST_CHARACTERS = 2000;

  private static final int MOST_COILS = 32;
  private static final String SOURCE = "wiring";

  /** Of a name that says that what begins with a brace is not JSON. */
  private static final String YAML = SOURCE + ".yaml";

  private static final KeyedText.Content CONTENT =
      new KeyedText.Content("wiring", "series: [left, right]");

  private TypedWiring() {}

  /**
   * Reads one such as {@code parallel: [{series: [upper.1, upper.2]}, lower]}, of at most 32 coils.
   *
   * @return the wiring, or the first thing that is wrong, a sentence without a full stop
   */
  public static Outcome<Circuit> read(String text) {
    if (text.isBlank() || text.length() > MOST_CHARACTERS) {
      return Outcome.none(
          "wiring has "
              + (text.isBlank() ? 0 : text.length())
              + " characters; allowed are 1 to "
              + MOST_CHARACTERS
              + ", such as series: [left, right]");
    }
    try {
      return Outcome.found(circuit(text));
    } catch (BadFileException bad) {
      String first = bad.problems().get(0).lines().findFirst().orElseThrow();
      return Outcome.none(
          first.replaceFirst("^wiring, line [0-9]+: ", "").replaceFirst("\\.$", ""));
    }
  }

  private static Circuit circuit(String text) throws BadFileException {
    Problems problems = new Problems(SOURCE);
    Node root = KeyedText.parse(CONTENT, YAML, text.lines().toList(), problems);
    problems.throwIfAny();
    Map<String, Integer> coils = new LinkedHashMap<>();
    name(root, coils);
    for (String driver : coils.keySet()) {
      if (!Names.isForm(driver)) {
        problems.add(
            1,
            "wiring names a coil "
                + Quoted.of(driver)
                + "; a name has a letter first, then letters, digits, blanks, _ and -.");
        problems.throwIfAny();
      }
    }
    int count = coils.values().stream().mapToInt(Integer::intValue).sum();
    if (count > MOST_COILS) {
      problems.add(
          1, "wiring has " + count + " coils; allowed are at most " + MOST_COILS + "; take fewer.");
      problems.throwIfAny();
    }
    var circuit = new CircuitReader(coils, problems).read(root);
    problems.throwIfAny();
    return circuit.orElseThrow(
        () -> new IllegalStateException("a wiring was not read and no problem was noted"));
  }

  /** The drivers that the leaves name, each with as many coils as its highest number. */
  private static void name(Node node, Map<String, Integer> coils) {
    if (node instanceof Node.Scalar scalar) {
      String text = scalar.text().strip();
      int dot = text.lastIndexOf('.');
      boolean numbered = dot > 0 && text.substring(dot + 1).matches("[1-9]");
      String driver = numbered ? text.substring(0, dot) : text;
      int number = numbered ? Integer.parseInt(text.substring(dot + 1)) : 1;
      coils.merge(driver, number, Math::max);
    } else if (node instanceof Node.Sequence list) {
      list.items().forEach(item -> name(item, coils));
    } else if (node instanceof Node.Mapping mapping) {
      mapping.entries().values().forEach(entry -> name(entry.value(), coils));
    }
  }

  /** A wiring of coils, series and parallel as it is read again. */
  public static String write(Circuit circuit) {
    return PlannedBoxText.wiring(circuit);
  }
}
