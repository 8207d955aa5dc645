package conewise.station.records;

import java.util.Optional;

/** Text that a record takes: of limited length, and of letters that any database keeps whole. */
final class Words {
  private Words() {}

  /** Refuses text that is blank, longer than {@code most}, or not plain. */
  static void require(String what, String text, int most) {
    if (text.isBlank() || text.length() > most) {
      throw new IllegalArgumentException(
          what + " has " + text.strip().length() + " characters; it must have 1 to " + most);
    }
    requirePlain(what, text);
  }

  /** The same of text that may be left out. */
  static void require(String what, Optional<String> text, int most) {
    text.ifPresent(words -> require(what, words, most));
  }

  private static void requirePlain(String what, String text) {
    text.codePoints()
        .filter(
            code -> Character.isISOControl(code) || Character.getType(code) == Character.SURROGATE)
        .findFirst()
        .ifPresent(
            code -> {
              throw new IllegalArgumentException(
                  String.format(
                      "%s holds the character U+%04X; letters and signs only", what, code));
            });
  }
}
