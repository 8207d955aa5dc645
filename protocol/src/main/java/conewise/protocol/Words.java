package conewise.protocol;

import java.util.List;
import java.util.regex.Pattern;

/** The words of a line: tags, names, and fields split from text that holds single spaces. */
final class Words {
  static final int TAG_MAX = 9999;

  private static final Pattern TAG = Pattern.compile("[0-9]{1,4}");
  private static final Pattern NAME = Pattern.compile("[a-z]{1,16}");

  private Words() {}

  static void checkTag(int tag) {
    if (tag < 0 || tag > TAG_MAX) {
      throw new IllegalArgumentException("a tag runs from 0 to " + TAG_MAX + ", but is " + tag);
    }
  }

  static void checkWord(String what, String word) {
    if (!isName(word)) {
      throw new IllegalArgumentException(
          "a " + what + " is 1 to 16 letters a-z, not \"" + word + "\"");
    }
  }

  static boolean isTag(String word) {
    return TAG.matcher(word).matches();
  }

  static boolean isName(String word) {
    return NAME.matcher(word).matches();
  }

  /** The words of a line; an empty one where two spaces meet or a space stands at an end. */
  static List<String> split(String text) {
    return List.of(text.split(" ", -1));
  }

  /** Whether a word is a key, "=" and a value. */
  static boolean isField(String word) {
    int equals = word.indexOf('=');
    return equals > 0
        && Fields.isKey(word.substring(0, equals))
        && Fields.isValue(word.substring(equals + 1));
  }

  /**
   * Fields from words that are each a field.
   *
   * @throws FieldProblem if a key stands twice
   */
  static Fields fields(List<String> words) {
    Fields fields = Fields.NONE;
    for (String word : words) {
      int equals = word.indexOf('=');
      String key = word.substring(0, equals);
      if (fields.has(key)) {
        throw FieldProblem.twice(key);
      }
      fields = fields.with(key, word.substring(equals + 1));
    }
    return fields;
  }
}
