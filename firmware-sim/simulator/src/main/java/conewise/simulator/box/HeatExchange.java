package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

/**
 * Air that is pressed together warms, and is stiffer for it; fibres among it take the warmth up.
 * Where they have time to, the space is as soft as a larger one (W. M. Leach, J. Audio Eng. Soc.
 * 37, 1989, from memory).
 *
 * @param gain how much larger the space seems to slow sound: 0 without fibres, 0.4 where all air
 *     keeps their temperature (the ratio of its heat capacities is 1.4)
 * @param settlingSeconds the time in which the air's temperature comes to that of the fibres
 */
public record HeatExchange(double gain, double settlingSeconds) {
  private static final double USUAL_SETTLING_SECONDS = 1e-3;

  /** No fibres. */
  public static final HeatExchange NONE = new HeatExchange(0, USUAL_SETTLING_SECONDS);

  /** Checks both values. */
  public HeatExchange {
    require("gain of volume by a lining", gain, 0, 0.4, "times the volume");
    require("settling time of a lining", settlingSeconds, 1e-4, 0.1, "s");
  }

  /** Fibres some tenths of a millimetre apart, which air settles to in about a millisecond. */
  public static HeatExchange of(double gain) {
    return new HeatExchange(gain, USUAL_SETTLING_SECONDS);
  }
}
