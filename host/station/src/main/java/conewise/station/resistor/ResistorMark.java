package conewise.station.resistor;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A resistor as it is printed or typed: a number in ohm ({@code 10}, {@code 10 ohm}), the letter
 * code ({@code 4R7}, {@code 10R}, {@code 4R7J}) or colours ({@code brown-black-black-gold}), the
 * latter two by IEC 60062 (from memory).
 *
 * @param ohm its value in ohm, positive and finite
 * @param toleranceFraction its tolerance over its value, where the mark says it
 */
public record ResistorMark(double ohm, Optional<Double> toleranceFraction) {
  private static final int LONGEST = 80;
  private static final Pattern NUMBER =
      Pattern.compile("([0-9]{1,9}(?:\\.[0-9]{1,9})?|\\.[0-9]{1,9})\\s*(?:ohms?|\u03c9)?");
  private static final Pattern LETTERS =
      Pattern.compile("([0-9]{0,4})([RKM])([0-9]{0,4})([BCDFGJKM]?)");

  /** Tolerance letters, in per cent. */
  private static final Map<String, Double> LETTER_PERCENT =
      Map.of("B", 0.1, "C", 0.25, "D", 0.5, "F", 1.0, "G", 2.0, "J", 5.0, "K", 10.0, "M", 20.0);

  private static final List<String> COLOURS =
      List.of(
          "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white");

  /** Tolerance bands, in per cent. */
  private static final Map<String, Double> BAND_PERCENT =
      Map.of(
          "brown", 1.0, "red", 2.0, "orange", 0.05, "yellow", 0.02, "green", 0.5, "blue", 0.25,
          "violet", 0.1, "grey", 0.01, "gold", 5.0, "silver", 10.0);

  private static final Map<String, Integer> SMALL_MULTIPLIERS =
      Map.of("gold", -1, "silver", -2, "pink", -3);

  /** Three bands say no tolerance: 20 %. */
  private static final double NO_BAND_FRACTION = 0.2;

  /** Checks the value. */
  public ResistorMark {
    if (!(ohm > 0) || Double.isInfinite(ohm)) {
      throw new IllegalArgumentException(
          "the resistor is " + ohm + " ohm; it must be positive and finite");
    }
  }

  /**
   * Reads a mark.
   *
   * @throws IllegalArgumentException when it is none; the message is one sentence that says why
   */
  public static ResistorMark of(String text) {
    String mark = text.strip();
    if (mark.length() > LONGEST) {
      throw new IllegalArgumentException(
          "a resistor's mark has " + mark.length() + " characters; it has at most " + LONGEST);
    }
    Matcher number = NUMBER.matcher(mark.toLowerCase(Locale.ROOT));
    if (number.matches()) {
      return new ResistorMark(Double.parseDouble(number.group(1)), Optional.empty());
    }
    Matcher letters = LETTERS.matcher(mark.toUpperCase(Locale.ROOT));
    if (letters.matches() && !(letters.group(1) + letters.group(3)).isEmpty()) {
      return ofLetters(letters);
    }
    String[] words = mark.toLowerCase(Locale.ROOT).replace("gray", "grey").split("[-,/ ]+", -1);
    if (words.length >= 3) {
      return ofBands(List.of(words));
    }
    throw new IllegalArgumentException(
        "it is neither a number in ohm (10), nor a letter code (4R7), nor three to six colours"
            + " (brown-black-black-gold)");
  }

  /** A value in ohm with four digits at most and no idle zeros. */
  public static String plain(double ohm) {
    return new BigDecimal(ohm).round(new MathContext(4)).stripTrailingZeros().toPlainString();
  }

  private static ResistorMark ofLetters(Matcher letters) {
    double factor =
        switch (letters.group(2)) {
          case "K" -> 1e3;
          case "M" -> 1e6;
          default -> 1;
        };
    double digits = Double.parseDouble("0" + letters.group(1) + "." + letters.group(3) + "0");
    return new ResistorMark(
        digits * factor,
        Optional.ofNullable(LETTER_PERCENT.get(letters.group(4))).map(percent -> percent / 100));
  }

  /** Three to six bands; the sixth of six says what a kelvin does and is left aside. */
  private static ResistorMark ofBands(List<String> bands) {
    if (bands.size() > 6) {
      throw new IllegalArgumentException(bands.size() + " colours; a resistor has three to six");
    }
    int digits = bands.size() <= 4 ? 2 : 3;
    int value = 0;
    for (String band : bands.subList(0, digits)) {
      int digit = COLOURS.indexOf(band);
      if (digit < 0) {
        throw wrong(band, "a digit", COLOURS);
      }
      value = 10 * value + digit;
    }
    String times = bands.get(digits);
    Integer power =
        COLOURS.contains(times)
            ? Integer.valueOf(COLOURS.indexOf(times))
            : SMALL_MULTIPLIERS.get(times);
    if (power == null) {
      throw wrong(times, "a multiplier", List.of("black to white", "gold", "silver", "pink"));
    }
    double tolerance = NO_BAND_FRACTION;
    if (bands.size() > digits + 1) {
      Double percent = BAND_PERCENT.get(bands.get(digits + 1));
      if (percent == null) {
        throw wrong(
            bands.get(digits + 1),
            "a tolerance",
            Arrays.asList("brown", "red", "green", "blue", "violet", "gold", "silver"));
      }
      tolerance = percent / 100;
    }
    return new ResistorMark(
        power < 0 ? value / Math.pow(10, -power) : value * Math.pow(10, power),
        Optional.of(tolerance));
  }

  private static IllegalArgumentException wrong(String band, String what, List<String> allowed) {
    return new IllegalArgumentException(
        "\"" + band + "\" is no colour of " + what + "; those are " + String.join(", ", allowed));
  }
}
