package conewise.station.card;

import java.util.ArrayList;
import java.util.List;

/** Text from files and people, made safe and fitted for a screen of fixed width. */
public final class PlainText {
  private PlainText() {}

  /**
   * Replaces what could steer a terminal or hide in a page (control characters, lone surrogates,
   * direction marks) by a question mark; tabs and line ends become a space.
   */
  public static String tame(String text) {
    StringBuilder tame = new StringBuilder(text.length());
    text.codePoints().forEach(code -> tame.appendCodePoint(tameCode(code)));
    return tame.toString();
  }

  private static int tameCode(int code) {
    if (code == '\t' || code == '\n' || code == '\r') {
      return ' ';
    }
    return switch (Character.getType(code)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.SURROGATE,
          Character.UNASSIGNED,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          '?';
      default -> code;
    };
  }

  /**
   * Breaks text at spaces into lines of at most {@code width} characters; a longer word is cut.
   *
   * @param text what to break; line ends count as spaces
   * @param width the longest line, at least 1
   * @return at least one line
   */
  public static List<String> wrap(String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : tame(text).trim().split(" +", -1)) {
      String rest = word;
      if (line.length() > 0 && line.length() + 1 + rest.length() > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      while (rest.length() > width) {
        lines.add(rest.substring(0, width));
        rest = rest.substring(width);
      }
      line.append(line.length() > 0 ? " " : "").append(rest);
    }
    lines.add(line.toString());
    return lines;
  }
}
