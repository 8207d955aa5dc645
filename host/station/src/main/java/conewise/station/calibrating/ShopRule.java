package conewise.station.calibrating;

/**
 * What a shop demands of the calibration before a box may pass.
 *
 * @param required whether it demands anything
 * @param checkDays within how many days a check resistor must have been good, or the calibration
 *     made; 0 for no such demand
 * @param checkLimit how far a check resistor's reading may deviate, as a fraction, positive
 */
public record ShopRule(boolean required, int checkDays, double checkLimit) {

  /** A week: common practice for a check standard at a bench. */
  public static final int USUAL_CHECK_DAYS = 7;

  /** The target of a calibrated jig. */
  public static final double USUAL_CHECK_LIMIT = 0.01;

  public ShopRule {
    if (checkDays < 0 || !(checkLimit > 0)) {
      throw new IllegalArgumentException(
          "the days are "
              + checkDays
              + " and the limit "
              + checkLimit
              + "; days may not be negative, and the limit must be positive");
    }
  }

  /** Nothing is demanded. */
  public static ShopRule none() {
    return new ShopRule(false, USUAL_CHECK_DAYS, USUAL_CHECK_LIMIT);
  }
}
