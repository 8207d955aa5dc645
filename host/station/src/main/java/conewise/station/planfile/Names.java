package conewise.station.planfile;

import conewise.analysis.model.Space;
import conewise.station.files.Nearest;
import conewise.station.files.Quoted;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Names of parts: each part has its own, and others refer to it. */
final class Names {
  private static final int LONGEST = 40;
  private static final String FORM = "[A-Za-z]([A-Za-z0-9 _-]*[A-Za-z0-9_-])?";

  /** What the model of a plan calls its own parts by, and the ends of limits. */
  private static final Set<String> RESERVED = Set.of(Space.OUTSIDE, "leads", "low", "high");

  private static final String LEAK = "leak of ";

  private final Problems problems;
  private final Set<String> taken = new HashSet<>(RESERVED);

  Names(Problems problems) {
    this.problems = problems;
  }

  /** A new name of a part. */
  Optional<String> fresh(Fields fields) {
    return fields.text("name", LONGEST).filter(name -> isFresh(fields, "name", name));
  }

  static boolean isForm(String name) {
    return name.matches(FORM) && name.length() <= LONGEST;
  }

  boolean isFresh(Fields fields, String key, String name) {
    if (!isForm(name)) {
      problems.add(
          fields.line(key),
          fields.where(key)
              + " is "
              + Quoted.of(name)
              + "; allowed are a letter first, then letters, digits, blanks, _ and -.");
      return false;
    }
    if (name.startsWith(LEAK) || !taken.add(name)) {
      problems.add(
          fields.line(key),
          fields.where(key)
              + " is "
              + Quoted.of(name)
              + ", which is taken; give each part a name of its own.");
      return false;
    }
    return true;
  }

  /** A reference to a space, or to the outside. */
  static Optional<String> space(
      Fields fields, String key, List<String> spaces, String usual, Problems problems) {
    Optional<Node> node = fields.optional(key);
    if (node.isEmpty()) {
      if (usual.isEmpty()) {
        problems.add(
            fields.line(),
            fields.where(key) + " is missing; say which space it is: " + words(spaces) + ".");
        return Optional.empty();
      }
      return Optional.of(usual);
    }
    if (node.get() instanceof Node.Scalar scalar
        && (spaces.contains(scalar.text()) || scalar.text().equals(Space.OUTSIDE))) {
      return Optional.of(scalar.text());
    }
    String text = node.get() instanceof Node.Scalar scalar ? scalar.text() : "";
    problems.add(
        node.get().line(),
        fields.where(key)
            + " is "
            + node.get().described()
            + Nearest.to(text, spaces).map(near -> "; " + near + " is near").orElse("")
            + "; allowed is "
            + words(spaces)
            + ".");
    return Optional.empty();
  }

  private static String words(List<String> spaces) {
    List<String> all = new ArrayList<>(spaces);
    all.add(Space.OUTSIDE);
    return String.join(", ", all);
  }
}
