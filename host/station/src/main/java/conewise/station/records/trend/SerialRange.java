package conewise.station.records.trend;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Serial numbers written as a range, {@code C-0001..C-0120}. */
public final class SerialRange {
  /** The longest range. */
  public static final int MOST = 100_000;

  private static final Pattern RANGE =
      Pattern.compile("(.*?)([0-9]{1,9})(?:\\.\\.|:)(.*?)([0-9]{1,9})");

  private SerialRange() {}

  /**
   * All serials that some words name, single ones or ranges, in their order.
   *
   * @throws IllegalArgumentException where a range runs backwards or they are too many
   */
  public static List<String> all(List<String> words) {
    List<String> serials = new ArrayList<>();
    for (String word : words) {
      serials.addAll(of(word).orElse(List.of(word)));
      if (serials.size() > MOST) {
        throw new IllegalArgumentException(
            "the serials named are more than " + MOST + "; ask for fewer at once");
      }
    }
    return serials;
  }

  /**
   * All serials of a range: what stands before the last number must be the same at both ends, and
   * numbers keep the digits of the first.
   *
   * @return empty when this is no range
   * @throws IllegalArgumentException when it is one that runs backwards or is too long
   */
  public static Optional<List<String>> of(String text) {
    Matcher matcher = RANGE.matcher(text);
    if (!matcher.matches() || !matcher.group(1).equals(matcher.group(3))) {
      return Optional.empty();
    }
    int from = Integer.parseInt(matcher.group(2));
    int to = Integer.parseInt(matcher.group(4));
    if (to < from || to - from >= MOST) {
      throw new IllegalArgumentException(
          "the serials "
              + text
              + " are "
              + ((long) to - from + 1)
              + "; a range rises and has 1 to "
              + MOST);
    }
    String digits = "%s%0" + matcher.group(2).length() + "d";
    List<String> serials = new ArrayList<>();
    for (int number = from; number <= to; number++) {
      serials.add(String.format(java.util.Locale.ROOT, digits, matcher.group(1), number));
    }
    return Optional.of(serials);
  }
}
