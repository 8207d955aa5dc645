package conewise.station.report;

import conewise.station.card.VerdictSign;
import java.util.Locale;

/** The shapes of the verdicts: each differs from the others without its colour. */
public final class SignDrawing {
  private SignDrawing() {}

  /**
   * The shape as inline SVG of the class {@code sign}; hidden from screen readers: the word is
   * beside it.
   */
  public static String of(VerdictSign sign) {
    return "<svg class=\"sign\" viewBox=\"0 0 48 48\" aria-hidden=\"true\">"
        + outline(sign)
        + "<path class=\"stroke\" d=\""
        + stroke(sign)
        + "\"/></svg>";
  }

  private static String outline(VerdictSign sign) {
    String points =
        switch (sign) {
          case PASS -> "";
          case FAIL -> "15,3 33,3 45,15 45,33 33,45 15,45 3,33 3,15";
          case UNDECIDED -> "24,3 46,43 2,43";
          case NOT_JUDGED -> "5,5 43,5 43,43 5,43";
        };
    return points.isEmpty()
        ? "<circle class=\"shape\" cx=\"24\" cy=\"24\" r=\"21\"/>"
        : String.format(Locale.ROOT, "<polygon class=\"shape\" points=\"%s\"/>", points);
  }

  private static String stroke(VerdictSign sign) {
    return switch (sign) {
      case PASS -> "M13 25 L21 33 L36 16";
      case FAIL -> "M15 15 L33 33 M33 15 L15 33";
      case UNDECIDED -> "M18.500 22 a5.500 5.500 0 1 1 7.500 5 q-2 1 -2 4 M24 38 v.2";
      case NOT_JUDGED -> "M14 24 H34";
    };
  }
}
