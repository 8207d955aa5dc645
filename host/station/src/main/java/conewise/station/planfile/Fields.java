package conewise.station.planfile;

import conewise.station.files.Nearest;
import conewise.station.files.Quoted;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * The keys of one group of a plan. Each asking either gives a value of the kind wanted or notes a
 * problem and gives nothing, so that reading goes on to the next mistake.
 */
final class Fields {

  /**
   * Allowed numbers.
   *
   * @param least the smallest, itself allowed
   * @param most the largest, itself allowed
   */
  record Range(double least, double most) {

    boolean holds(double value) {
      return least <= value && value <= most;
    }

    String described() {
      return "a number from " + plain(least) + " to " + plain(most);
    }
  }

  private static final Pattern NUMBER =
      Pattern.compile("[+-]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?");
  private static final Pattern DECIMAL_COMMA = Pattern.compile("[+-]?[0-9]+,[0-9]+");

  private final String group;
  private final Node.Mapping mapping;
  private final Problems problems;

  private Fields(String group, Node.Mapping mapping, Problems problems) {
    this.group = group;
    this.mapping = mapping;
    this.problems = problems;
  }

  /**
   * Takes a node as a group of keys, noting each key that is not allowed.
   *
   * @param group its name for people; empty for the plan itself
   */
  static Optional<Fields> of(String group, Node node, List<String> allowed, Problems problems) {
    if (!(node instanceof Node.Mapping mapping)) {
      problems.add(
          node.line(),
          (group.isEmpty() ? "the plan" : group)
              + " is "
              + node.described()
              + "; it must be a group of the keys "
              + String.join(", ", allowed)
              + ".");
      return Optional.empty();
    }
    Fields fields = new Fields(group, mapping, problems);
    mapping.entries().forEach((key, entry) -> fields.refuseUnknown(key, entry, allowed));
    return Optional.of(fields);
  }

  int line() {
    return mapping.line();
  }

  int line(String key) {
    return mapping.entries().get(key).keyLine();
  }

  boolean has(String key) {
    return mapping.entries().containsKey(key);
  }

  Optional<Node> optional(String key) {
    return Optional.ofNullable(mapping.entries().get(key)).map(Node.Entry::value);
  }

  Optional<Node> required(String key, String allowed) {
    if (!has(key)) {
      problems.add(line(), where(key) + " is missing; add it: " + allowed + ".");
    }
    return optional(key);
  }

  /** A text of 1 to {@code longest} characters. */
  Optional<String> text(String key, int longest) {
    String allowed = "a text of 1 to " + longest + " characters";
    return required(key, allowed)
        .flatMap(
            node -> {
              if (node instanceof Node.Scalar scalar
                  && scalar.kind() == Node.Scalar.Kind.TEXT
                  && !scalar.text().isBlank()
                  && scalar.text().length() <= longest) {
                return Optional.of(scalar.text().strip());
              }
              problems.add(
                  node.line(),
                  where(key)
                      + " is "
                      + node.described()
                      + "; allowed is "
                      + allowed
                      + " (put digits between quotes).");
              return Optional.empty();
            });
  }

  /** One of some words. */
  Optional<String> word(String key, Node node, List<String> words) {
    if (node instanceof Node.Scalar scalar
        && scalar.kind() == Node.Scalar.Kind.TEXT
        && words.contains(scalar.text())) {
      return Optional.of(scalar.text());
    }
    problems.add(
        node.line(),
        where(key)
            + " is "
            + node.described()
            + "; allowed is "
            + String.join(" or ", words)
            + ".");
    return Optional.empty();
  }

  /** A number that may be left out. */
  Optional<Double> number(String key, Range range) {
    return optional(key).flatMap(node -> number(where(key), node, range, problems));
  }

  /** A whole number that may be left out. */
  Optional<Integer> whole(String key, Range range) {
    Optional<Double> number = number(key, range);
    if (number.isPresent() && number.get() != Math.rint(number.get())) {
      problems.add(
          line(key),
          where(key)
              + " is "
              + plain(number.get())
              + "; allowed is a whole number, without parts.");
      return Optional.empty();
    }
    return number.map(Double::intValue);
  }

  /** A number in a range. */
  static Optional<Double> number(String where, Node node, Range range, Problems problems) {
    if (node instanceof Node.Scalar scalar
        && scalar.kind() == Node.Scalar.Kind.NUMBER
        && NUMBER.matcher(scalar.text()).matches()) {
      double value = Double.parseDouble(scalar.text());
      if (range.holds(value)) {
        return Optional.of(value);
      }
    }
    String hint =
        node instanceof Node.Scalar scalar && DECIMAL_COMMA.matcher(scalar.text()).matches()
            ? ", with a decimal point"
            : "";
    problems.add(
        node.line(),
        where + " is " + node.described() + "; allowed is " + range.described() + hint + ".");
    return Optional.empty();
  }

  /** A figure that may be left out, its unit written out, perhaps with a tolerance. */
  Optional<Figure> figure(String key, Optional<Measure> measure, Range range) {
    return optional(key).flatMap(node -> figure(where(key), node, measure, range, problems));
  }

  /** A figure that may be left out and has no tolerance. */
  Optional<Figure> exact(String key, Optional<Measure> measure, Range range) {
    return optional(key).flatMap(node -> exact(where(key), node, measure, range, problems));
  }

  /** A figure without tolerance. */
  static Optional<Figure> exact(
      String where, Node node, Optional<Measure> measure, Range range, Problems problems) {
    Optional<Figure> figure = figure(where, node, measure, range, problems);
    if (figure.isPresent() && figure.get().tolerance().isPresent()) {
      problems.add(
          node.line(),
          where + " is " + node.described() + "; a tolerance has no place here, take it out.");
      return Optional.empty();
    }
    return figure;
  }

  /** A figure in a range, which is in the unit without prefix. */
  static Optional<Figure> figure(
      String where, Node node, Optional<Measure> measure, Range range, Problems problems) {
    Optional<Figure> figure =
        node instanceof Node.Scalar scalar && scalar.kind() != Node.Scalar.Kind.OTHER
            ? Figure.parse(scalar.text(), measure)
            : Optional.empty();
    if (figure.isPresent() && range.holds(figure.get().value())) {
      return figure;
    }
    problems.add(
        node.line(),
        where
            + " is "
            + node.described()
            + (figure.isPresent()
                ? ", out of range; allowed is " + Figure.allowedRange(measure, range)
                : "; allowed is " + Figure.allowed(measure, range))
            + ".");
    return Optional.empty();
  }

  /** Yes or no; no where it is left out. */
  boolean yes(String key) {
    Optional<Node> node = optional(key);
    if (node.isEmpty()) {
      return false;
    }
    if (node.get() instanceof Node.Scalar scalar) {
      boolean ofYaml = scalar.kind() == Node.Scalar.Kind.OTHER;
      String word = ofYaml ? scalar.text().toLowerCase(Locale.ROOT) : scalar.text();
      if (word.equals("yes") || word.equals("no")) {
        return word.equals("yes");
      }
      if (ofYaml && (word.equals("true") || word.equals("false"))) {
        return word.equals("true");
      }
    }
    problems.add(
        node.get().line(),
        where(key) + " is " + node.get().described() + "; allowed is yes or no.");
    return false;
  }

  /** The items of a list that may be left out. */
  List<Node> list(String key, int most) {
    Optional<Node> node = optional(key);
    if (node.isEmpty()) {
      return List.of();
    }
    if (node.get() instanceof Node.Sequence sequence && sequence.items().size() <= most) {
      return sequence.items();
    }
    problems.add(
        node.get().line(),
        where(key)
            + " is "
            + node.get().described()
            + "; allowed is a list of at most "
            + most
            + ".");
    return List.of();
  }

  /** The key with its group, as people would name it. */
  String where(String key) {
    return group.isEmpty() ? key : group + "." + key;
  }

  private void refuseUnknown(String key, Node.Entry entry, List<String> allowed) {
    if (!allowed.contains(key)) {
      String hint =
          Nearest.to(key.toLowerCase(Locale.ROOT), allowed)
              .map(near -> "; " + near + " is near")
              .orElse("");
      problems.add(
          entry.keyLine(),
          "the key "
              + Quoted.of(key)
              + " is not known"
              + (group.isEmpty() ? "" : " in " + group)
              + hint
              + "; allowed are "
              + String.join(", ", allowed)
              + ".");
    }
  }

  static String plain(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }
}
