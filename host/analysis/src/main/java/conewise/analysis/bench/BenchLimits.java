package conewise.analysis.bench;

/**
 * Where the bench's findings begin. Each figure has its reason beside it in {@link #standard()}.
 *
 * @param saturatedFraction the part of samples at a rail from which a channel counts as clipped
 * @param restingVolt DC across the terminals before the drive starts, in volt
 * @param idleVolt effective AC across the terminals before the drive starts, in volt
 * @param humFraction hum's part of the current's or voltage's effective value
 * @param lowestOhm every point below this in modulus: the terminals are shorted
 * @param highestOhm every point above this in modulus: the terminals are open
 * @param noiseFraction the middle relative standard uncertainty of the points
 * @param burstRatio the noise in the worst stretch of a record over that in its middle one
 * @param changeDeviations a change of impedance within a record, in its standard deviations
 * @param changeFraction the same as a part of the impedance; both must be passed
 */
public record BenchLimits(
    double saturatedFraction,
    double restingVolt,
    double idleVolt,
    double humFraction,
    double lowestOhm,
    double highestOhm,
    double noiseFraction,
    double burstRatio,
    double changeDeviations,
    double changeFraction) {

  public BenchLimits {
    double[] all = {
      saturatedFraction,
      restingVolt,
      idleVolt,
      humFraction,
      lowestOhm,
      highestOhm,
      noiseFraction,
      burstRatio,
      changeDeviations,
      changeFraction
    };
    for (double limit : all) {
      if (!(limit > 0)) {
        throw new IllegalArgumentException("a bench limit is " + limit + "; each must be positive");
      }
    }
  }

  /**
   * Limits for the jig of this project: 10 ohm to sense the current, a few volt of drive, a 10-bit
   * converter.
   */
  public static BenchLimits standard() {
    return new BenchLimits(
        // One sample in a thousand at a rail bends a tone by about as much as the converter does.
        1e-3,
        // The jig's own offsets reach some 10 mV; an amplifier's output rests within 50 mV, a
        // battery does not (common practice).
        0.1,
        // Pick-up in an unconnected lead is a few mV; music from an amplifier is more.
        0.03,
        // Five parts in a hundred, on its own lines, still leaves tones next to it good to 1 %.
        0.05,
        // No wired box has a modulus under half an ohm over the whole range; leads and clips have.
        0.5,
        // A box's highest peak stays under a few hundred ohm, and never over the whole range.
        1000,
        // Three percent on the middle point is as much as a tolerance on tuning can bear.
        0.03,
        // Stretches of steady noise differ by some tens of percent; a scraping clip by far more.
        8,
        // Beyond chance for any number of tones and stretches looked at.
        6,
        // Less than this, a coil warming up does as well.
        0.02);
  }
}
