package conewise.simulator.box;

import java.util.regex.Pattern;

/** Names of the parts of a box: one word that a wiring can refer to. */
final class Names {
  private static final Pattern WORD = Pattern.compile("[a-z][a-z0-9_]{0,31}");

  private Names() {}

  static void require(String what, String name) {
    if (name == null || !WORD.matcher(name).matches()) {
      throw new IllegalArgumentException(
          "The name of a "
              + what
              + " is \""
              + name
              + "\"; it must be 1 to 32 of a-z, 0-9 and _ and start with a letter.");
    }
  }
}
