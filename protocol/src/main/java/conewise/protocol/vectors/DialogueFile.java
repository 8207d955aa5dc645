package conewise.protocol.vectors;

import java.util.ArrayList;
import java.util.List;

/**
 * Reads dialogue files: titles {@code ==}, conditions {@code ?}, lines sent {@code >}, lines
 * expected {@code <}.
 */
public final class DialogueFile {
  private static final String SEALED = " ~....";

  private final String name;
  private final List<Dialogue> dialogues = new ArrayList<>();
  private final List<Dialogue.Condition> conditions = new ArrayList<>();
  private final List<Dialogue.Step> steps = new ArrayList<>();
  private String title;

  private DialogueFile(String name) {
    this.name = name;
  }

  /** All dialogues that come with the specification. */
  public static List<Dialogue> packaged() {
    return VectorFile.text("dialogues/INDEX")
        .lines()
        .flatMap(file -> parse(file, VectorFile.text("dialogues/" + file)).stream())
        .toList();
  }

  /**
   * The dialogues in a text.
   *
   * @param name of the file, for messages
   * @throws IllegalArgumentException naming the line that breaks the format
   */
  public static List<Dialogue> parse(String name, String text) {
    DialogueFile file = new DialogueFile(name);
    int number = 0;
    for (String line : text.lines().toList()) {
      number++;
      try {
        file.take(line);
      } catch (IllegalArgumentException e) {
        throw new IllegalArgumentException(name + " line " + number + ": " + e.getMessage(), e);
      }
    }
    file.close();
    return List.copyOf(file.dialogues);
  }

  private void take(String line) {
    if (line.isEmpty() || line.startsWith("#")) {
      return;
    }
    if (line.startsWith("== ")) {
      close();
      title = line.substring(3);
    } else if (title == null) {
      throw new IllegalArgumentException(
          "a dialogue must begin with == and its title, not with: " + line);
    } else if (line.startsWith("? ")) {
      conditions.add(condition(line.substring(2)));
    } else {
      steps.add(step(line));
    }
  }

  private static Dialogue.Condition condition(String text) {
    int equals = text.indexOf('=');
    if (equals < 1 || !text.substring(equals + 1).matches("[0-9]{1,10}")) {
      throw new IllegalArgumentException(
          "a condition is a name, = and a whole number, not: " + text);
    }
    return new Dialogue.Condition(
        text.substring(0, equals), Long.parseLong(text.substring(equals + 1)));
  }

  private static Dialogue.Step step(String line) {
    if (line.equals(">") || line.startsWith("> ")) {
      return new Dialogue.Send(Escapes.undo(line.substring(Math.min(2, line.length()))));
    }
    if (line.startsWith("pause ")) {
      return new Dialogue.Pause(line.substring(6));
    }
    boolean repeated = line.startsWith("<* ");
    if (!(repeated || line.startsWith("< ")) || !line.endsWith(SEALED)) {
      throw new IllegalArgumentException(
          "a step is >, pause, or < or <* with" + SEALED + " at its end, not: " + line);
    }
    String pattern = line.substring(repeated ? 3 : 2, line.length() - SEALED.length());
    return new Dialogue.Expect(new ExpectedLine(pattern), repeated);
  }

  private void close() {
    if (title != null) {
      if (steps.isEmpty()) {
        throw new IllegalArgumentException(name + ": the dialogue \"" + title + "\" has no steps");
      }
      dialogues.add(new Dialogue(name + ": " + title, conditions, steps));
    }
    conditions.clear();
    steps.clear();
  }
}
