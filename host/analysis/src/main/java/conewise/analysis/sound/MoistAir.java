package conewise.analysis.sound;

import conewise.analysis.model.Air;

/**
 * Air with water in it, at 101 325 Pa. Water vapour is lighter than air, so moist air is thinner
 * and sound in it a little faster: by 0.2 % at 20 degrees and 50 %.
 */
public final class MoistAir {
  public static final double LOWEST_CELSIUS = -20;
  public static final double HIGHEST_CELSIUS = 50;

  private static final double KELVIN_AT_ZERO = 273.15;
  private static final double TRIPLE_POINT_KELVIN = 273.16;

  /**
   * Molar mass of water over that of dry air: 18.015 and 28.964 g (handbook values, from memory).
   */
  private static final double MOLAR_MASS_RATIO = 18.015 / 28.964;

  /** Molar heats over the gas constant: of two atoms 7/2, of three that do not lie in line 4. */
  private static final double HEAT_OF_AIR = 3.5;

  private static final double HEAT_OF_WATER = 4;

  private MoistAir() {}

  /**
   * Air of a temperature and humidity, as a mixture of ideal gases (derived); dry it is {@link
   * Air#at}.
   *
   * @param celsius -20 to 50, the range of ISO 9613-1
   * @param relativeHumidity 0 to 1, over water
   */
  public static Air at(double celsius, double relativeHumidity) {
    require("the air's temperature in degrees Celsius", celsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
    require("the relative humidity", relativeHumidity, 0, 1);
    Air dry = Air.at(celsius);
    double water = relativeHumidity * saturationAtmospheres(celsius);
    double mass = 1 + water * (MOLAR_MASS_RATIO - 1);
    double heat = HEAT_OF_AIR + water * (HEAT_OF_WATER - HEAT_OF_AIR);
    double heats = heat / (heat - 1) / (HEAT_OF_AIR / (HEAT_OF_AIR - 1));
    return new Air(dry.densityKgPerM3() * mass, dry.soundMPerS() * Math.sqrt(heats / mass));
  }

  /**
   * Pressure of saturated water vapour over 101 325 Pa, which is the mole fraction of water at 100
   * % (ISO 9613-1, annex B, from memory).
   */
  static double saturationAtmospheres(double celsius) {
    double kelvin = celsius + KELVIN_AT_ZERO;
    return Math.pow(10, 4.6151 - 6.8346 * Math.pow(TRIPLE_POINT_KELVIN / kelvin, 1.261));
  }

  private static void require(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " is " + value + "; it must lie from " + low + " to " + high);
    }
  }
}
