package conewise.simulator.dynamics;

import java.util.Locale;

/** Checks of values: the message of a refusal holds the value, the limit and the unit. */
public final class Limits {
  private Limits() {}

  /**
   * Returns the value when it is finite and above zero.
   *
   * @throws IllegalArgumentException otherwise
   */
  public static double requirePositive(String what, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "The %s is %s %s; it must be above 0 and finite.", what, value, unit));
    }
    return value;
  }

  /**
   * Returns the value when it lies between the limits, both included.
   *
   * @throws IllegalArgumentException otherwise, also for NaN
   */
  public static double require(String what, double value, double low, double high, String unit) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "The %s is %s %s; it must be between %s and %s.",
              what,
              plain(value),
              unit,
              plain(low),
              plain(high)));
    }
    return value;
  }

  private static String plain(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e9
        ? Long.toString((long) value)
        : Double.toString(value);
  }
}
