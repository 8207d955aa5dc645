package conewise.station.page;

import static conewise.station.report.Html.text;

/**
 * A box's number as a heading: a long one is written smaller, so that its verdict stays in sight.
 */
final class SerialHeading {
  private static final int SHORT = 14;
  private static final int MIDDLING = 26;

  private SerialHeading() {}

  static String of(String serial) {
    int letters = serial.length();
    String size = letters <= SHORT ? "short" : letters <= MIDDLING ? "middling" : "long";
    return "<h1 class=\"" + size + "\">" + text(serial) + "</h1>";
  }
}
