package conewise.protocol;

/** Hexadecimal words of a fixed number of digits. */
final class Hex {
  /** What {@link #parse} gives for text that is not such a word. */
  static final int NONE = -1;

  private Hex() {}

  /**
   * The value of exactly {@code digits} (at most seven) hexadecimal digits of either case, or
   * {@link #NONE}.
   */
  static int parse(String text, int digits) {
    if (text.length() != digits) {
      return NONE;
    }
    int value = 0;
    for (int i = 0; i < digits; i++) {
      char c = text.charAt(i);
      int digit = c < 0x80 ? Character.digit(c, 16) : -1;
      if (digit < 0) {
        return NONE;
      }
      value = value * 16 + digit;
    }
    return value;
  }
}
