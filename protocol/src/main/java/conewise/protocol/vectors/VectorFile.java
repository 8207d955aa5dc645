package conewise.protocol.vectors;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A file of single lines, each with what it gives. */
public final class VectorFile {
  private VectorFile() {}

  /**
   * One vector.
   *
   * @param title the comment above it
   * @param wire the line without LF, one character a byte
   * @param wanted what it gives, in the words of the README
   */
  public record Case(String title, String wire, String wanted) {}

  /**
   * The vectors of a packaged file.
   *
   * @param name such as {@code requests-valid.txt}
   * @throws IllegalArgumentException if there is no such file or it breaks the format
   */
  public static List<Case> packaged(String name) {
    return parse(name, text(name));
  }

  /**
   * The vectors in a text.
   *
   * @param name of the file, for messages
   * @throws IllegalArgumentException naming the line that breaks the format
   */
  public static List<Case> parse(String name, String text) {
    List<Case> cases = new ArrayList<>();
    String title = "";
    String wire = null;
    int number = 0;
    for (String line : text.split("\n", -1)) {
      number++;
      if (line.startsWith("# ")) {
        title = line.substring(2);
      } else if (line.startsWith("> ") && wire == null) {
        wire = Escapes.undo(line.substring(2));
      } else if (line.startsWith("= ") && wire != null) {
        cases.add(new Case(title, wire, line.substring(2)));
        wire = null;
      } else if (!line.isEmpty()) {
        throw new IllegalArgumentException(
            name + " line " + number + " must be a comment, or > and then =: " + line);
      }
    }
    if (wire != null) {
      throw new IllegalArgumentException(name + " ends with a > line that has no = line");
    }
    return List.copyOf(cases);
  }

  /** The text of a packaged file, such as {@code dialogues/INDEX}. */
  static String text(String name) {
    try (InputStream in = VectorFile.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalArgumentException("there is no vector file " + name);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(
          "the vector file " + name + " cannot be read: " + e.getMessage(), e);
    }
  }
}
