package conewise.analysis.lead;

/** Checks of values, whose message has the value and the limit. */
final class Positive {
  private Positive() {}

  static void require(String what, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          what + " is " + value + " " + unit + "; it must be finite and above 0");
    }
  }
}
