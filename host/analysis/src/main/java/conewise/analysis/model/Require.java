package conewise.analysis.model;

/** Checks of values, whose message has the value and the limit. */
final class Require {
  private Require() {}

  static double positive(String what, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          what + " is " + value + " " + unit + "; it must be finite and more than 0");
    }
    return value;
  }

  static double within(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " is " + value + "; it must lie from " + low + " to " + high);
    }
    return value;
  }

  static void named(String what, String name) {
    if (name.isBlank()) {
      throw new IllegalArgumentException(what + " needs a name; it was blank");
    }
  }
}
