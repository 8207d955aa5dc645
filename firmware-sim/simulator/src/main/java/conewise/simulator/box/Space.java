package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

/**
 * An enclosed air space.
 *
 * @param name one word, unlike {@link #OUTSIDE}
 * @param volumeM3 net volume
 * @param absorptionPaSPerM3 loss of the lining, in series with the spring of the air; 0 for none
 * @param heat what the lining's fibres do to the air's temperature
 */
public record Space(String name, double volumeM3, double absorptionPaSPerM3, HeatExchange heat) {
  /** The name that stands for the free air around the box. */
  public static final String OUTSIDE = "outside";

  /** Checks name and values. */
  public Space {
    Names.require("space", name);
    if (name.equals(OUTSIDE)) {
      throw new IllegalArgumentException("A space cannot be called \"" + OUTSIDE + "\".");
    }
    require("volume of space " + name, volumeM3, 1e-6, 100, "m3");
    require("absorption of space " + name, absorptionPaSPerM3, 0, 1e9, "Pa s/m3");
  }

  /** A space whose lining leaves the air as warm as it gets. */
  public Space(String name, double volumeM3, double absorptionPaSPerM3) {
    this(name, volumeM3, absorptionPaSPerM3, HeatExchange.NONE);
  }

  /** A space without lining. */
  public static Space litres(String name, double litres) {
    return new Space(name, litres / 1000, 0);
  }

  /** The spring of the air inside: volume that flows in for each pascal. */
  double complianceM3PerPa(Air air) {
    return volumeM3 / air.bulkModulusPa();
  }

  /** The same space with fibres that take up the air's warmth. */
  public Space with(HeatExchange fibres) {
    return new Space(name, volumeM3, absorptionPaSPerM3, fibres);
  }

  /**
   * The same space with a lining whose loss has the given quality at a frequency: R = 1 / (w Q C)
   * with the compliance C of the bare air.
   */
  public Space lined(Air air, double quality, double atHz) {
    require("absorption quality of space " + name, quality, 0.1, 1e6, "");
    require("frequency of that quality", atHz, 1, 1000, "Hz");
    return new Space(
        name, volumeM3, 1 / (2 * Math.PI * atHz * quality * complianceM3PerPa(air)), heat);
  }
}
