package conewise.analysis.sound;

import conewise.analysis.model.Air;

/**
 * The time that sound takes for a distance.
 *
 * @param distanceM in metres, 0 or more
 * @param delaySeconds in seconds, 0 or more
 */
public record Travel(double distanceM, double delaySeconds) {
  private static final double FULL_TURN = 360;

  /** A period that a rounding is missing of is a whole one. */
  private static final double ROUNDING = 1e-12;

  /**
   * What a delay is to a sine.
   *
   * @param frequencyHz its frequency
   * @param wavelengthM its wavelength
   * @param turns how many periods it is late
   * @param lagDegrees how far it lags behind, from 0 to less than 360 degrees
   */
  public record Phase(double frequencyHz, double wavelengthM, double turns, double lagDegrees) {}

  public Travel {
    require("a distance", distanceM, "m");
    require("a delay", delaySeconds, "s");
  }

  /** The time that a distance takes. */
  public static Travel over(double distanceM, Air air) {
    return new Travel(distanceM, distanceM / air.soundMPerS());
  }

  /** The distance that sound gets in a time. */
  public static Travel during(double delaySeconds, Air air) {
    return new Travel(delaySeconds * air.soundMPerS(), delaySeconds);
  }

  /**
   * The shortest delay that turns a sine so far, at the distance that it takes.
   *
   * @param lagDegrees 0 or more; more than 360 for more than a period
   */
  public static Travel turning(double lagDegrees, double frequencyHz, Air air) {
    require("a lag", lagDegrees, "degrees");
    requireFrequency(frequencyHz);
    return during(lagDegrees / FULL_TURN / frequencyHz, air);
  }

  /** What it is at a frequency, above 0. */
  public Phase at(double frequencyHz, Air air) {
    requireFrequency(frequencyHz);
    double turns = delaySeconds * frequencyHz;
    double part = turns - Math.floor(turns + ROUNDING);
    return new Phase(
        frequencyHz, air.soundMPerS() / frequencyHz, turns, FULL_TURN * Math.max(0, part));
  }

  private static void requireFrequency(double frequencyHz) {
    if (!(frequencyHz > 0) || Double.isInfinite(frequencyHz)) {
      throw new IllegalArgumentException(
          "a frequency is " + frequencyHz + " Hz; it must be finite and above 0");
    }
  }

  private static void require(String what, double value, String unit) {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          what + " is " + value + " " + unit + "; it must be finite and not below 0");
    }
  }
}
