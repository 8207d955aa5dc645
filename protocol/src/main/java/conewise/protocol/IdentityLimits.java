package conewise.protocol;

import java.util.regex.Pattern;

/** Checks of {@link JigIdentity}: each message has the name, the value and the limit. */
final class IdentityLimits {
  private static final Pattern WORD = Pattern.compile("[A-Za-z0-9._+-]{1,32}");
  private static final Pattern ID = Pattern.compile("[A-Za-z0-9-]{1,16}");

  private IdentityLimits() {}

  static void whole(String name, long value, long low, long high) {
    if (value < low || value > high) {
      throw new IllegalArgumentException(
          name + " is " + value + ", but must lie from " + low + " to " + high);
    }
  }

  static void decimal(String name, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          name + " is " + value + ", but must lie from " + low + " to " + high);
    }
  }

  static void word(String name, String value) {
    if (!WORD.matcher(value).matches()) {
      throw new IllegalArgumentException(
          name + " is \"" + value + "\", but must be 1 to 32 of A-Z a-z 0-9 . _ + -");
    }
  }

  /** What {@code store} takes, except the word none. */
  static void id(String name, String value) {
    if (!isId(value) || value.equals("none")) {
      throw new IllegalArgumentException(
          name + " is \"" + value + "\", but must be 1 to 16 of A-Z a-z 0-9 - and not none");
    }
  }

  static boolean isId(String value) {
    return ID.matcher(value).matches();
  }
}
