package conewise.analysis.vent;

import java.math.BigDecimal;
import java.math.MathContext;

/** Checks of values, whose message has the value and the limit, and values for people. */
final class Sizes {
  private static final MathContext FOUR_DIGITS = new MathContext(4);

  private Sizes() {}

  /** Four digits, without zeros at the end. */
  static String told(double value) {
    return new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros().toPlainString();
  }

  static void require(String what, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(what + " is " + value + "; it must be finite and above 0");
    }
  }
}
