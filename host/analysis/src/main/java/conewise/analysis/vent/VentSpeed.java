package conewise.analysis.vent;

import conewise.analysis.model.Air;

/**
 * How fast the air in a vent moves.
 *
 * @param peakMPerS the highest speed, averaged over the cross section
 * @param partOfSound that speed over the speed of sound
 * @param leastAreaM2 the cross section of all vents together that R. H. Small's rule asks for: at
 *     least 0.8 times frequency times displaced volume (J. Audio Eng. Soc. 21, 1973, part 2, from
 *     memory)
 * @param quiet whether the speed is at most {@link #MOST_PART_OF_SOUND}
 */
public record VentSpeed(double peakMPerS, double partOfSound, double leastAreaM2, boolean quiet) {
  /** Faster than a twentieth of the speed of sound a vent is heard (common practice). */
  public static final double MOST_PART_OF_SOUND = 0.05;

  private static final double SECONDS_PER_METRE = 0.8;

  /**
   * The speed when the vent moves a volume of air by a sine: 2 pi f V / S, since what passes each
   * cross section is alike (continuity).
   *
   * @param areaM2 of all vents together
   * @param frequencyHz of the sine
   * @param displacedM3 the volume, from rest to peak; with the cones' own (area times peak
   *     excursion) this is the least that a vented box asks of its vent at the tuning to be as loud
   *     as its cones would be alone
   */
  public static VentSpeed of(double areaM2, double frequencyHz, double displacedM3, Air air) {
    Sizes.require("the cross section of the vents", areaM2);
    Sizes.require("the frequency", frequencyHz);
    Sizes.require("the displaced volume", displacedM3);
    double peak = 2 * Math.PI * frequencyHz * displacedM3 / areaM2;
    double part = peak / air.soundMPerS();
    return new VentSpeed(
        peak, part, SECONDS_PER_METRE * frequencyHz * displacedM3, part <= MOST_PART_OF_SOUND);
  }
}
