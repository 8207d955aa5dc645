package conewise.analysis.model;

/**
 * The air in and around a box.
 *
 * @param densityKgPerM3 density
 * @param soundMPerS speed of sound
 */
public record Air(double densityKgPerM3, double soundMPerS) {

  /** Dry air at 20 degrees Celsius and 101 325 Pa. */
  public static final Air AT_20_CELSIUS = new Air(1.204, 343.2);

  private static final double KELVIN_AT_ZERO = 273.15;
  private static final double KELVIN_AT_20 = 293.15;

  public Air {
    Require.positive("the air's density", densityKgPerM3, "kg/m3");
    Require.positive("the speed of sound", soundMPerS, "m/s");
  }

  /**
   * Air at another temperature and the same pressure: the speed rises with the root of the absolute
   * temperature (ISO 9613-1, eq. A.5), the density falls with it (ideal gas), so that their product
   * rho c^2 stays.
   *
   * @param celsius -50 to 80
   */
  public static Air at(double celsius) {
    Require.within("the air's temperature in degrees Celsius", celsius, -50, 80);
    double ratio = (celsius + KELVIN_AT_ZERO) / KELVIN_AT_20;
    return new Air(
        AT_20_CELSIUS.densityKgPerM3 / ratio, AT_20_CELSIUS.soundMPerS * Math.sqrt(ratio));
  }

  /** rho c^2 in pascal: what a volume of air resists being squeezed with. */
  public double bulkModulusPa() {
    return densityKgPerM3 * soundMPerS * soundMPerS;
  }
}
