package conewise.protocol.vectors;

/** Bytes written as {@code \xNN} in vector files; all other characters stand for themselves. */
final class Escapes {
  private Escapes() {}

  /**
   * The text with each escape replaced by the character of that code, 0 to 255.
   *
   * @throws IllegalArgumentException for a backslash that begins no escape
   */
  static String undo(String escaped) {
    StringBuilder text = new StringBuilder();
    int i = 0;
    while (i < escaped.length()) {
      char c = escaped.charAt(i);
      if (c == '\\') {
        text.append(code(escaped, i));
        i += 4;
      } else {
        text.append(c);
        i++;
      }
    }
    return text.toString();
  }

  private static char code(String escaped, int at) {
    String escape = escaped.substring(at, Math.min(at + 4, escaped.length()));
    if (!escape.matches("\\\\x[0-9A-F]{2}")) {
      throw new IllegalArgumentException(
          "a backslash must begin \\xNN with two upper-case hexadecimal digits, not \""
              + escape
              + "\"");
    }
    return (char) Integer.parseInt(escape.substring(2), 16);
  }
}
