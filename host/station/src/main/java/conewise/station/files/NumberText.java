package conewise.station.files;

import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Decimal numbers as text files hold them: a decimal point, no grouping, no words. */
public final class NumberText {

  /** The largest size of any number taken from a file: far beyond all that a bench can show. */
  static final double LARGEST = 1e12;

  /** What is allowed, for people. */
  public static final String ALLOWED =
      "a number with a decimal point, such as 3.25 or 1.2e-3, of a size up to 1e12";

  /** Digits, exponent digits bounded so that no exponent can overflow an int. */
  private static final Pattern NUMBER =
      Pattern.compile("([+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+))(?:[eE]([+-]?[0-9]{1,4}))?");

  private NumberText() {}

  /** The number that the text holds, or empty where it holds none or too large a one. */
  public static OptionalDouble parse(String text) {
    return parse(text, 0);
  }

  /**
   * The number times a power of ten, correctly rounded once (a scaled decimal is read, not
   * multiplied).
   *
   * @param powerOfTen for example 9 to read GHz as Hz
   */
  static OptionalDouble parse(String text, int powerOfTen) {
    Matcher matcher = NUMBER.matcher(text);
    if (!matcher.matches()) {
      return OptionalDouble.empty();
    }
    int exponent = matcher.group(2) == null ? 0 : Integer.parseInt(matcher.group(2));
    double value = Double.parseDouble(matcher.group(1) + "e" + (exponent + powerOfTen));
    return Math.abs(value) <= LARGEST ? OptionalDouble.of(value) : OptionalDouble.empty();
  }
}
