package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

/**
 * The air around and in a box.
 *
 * @param densityKgPerM3 0.5 to 2
 * @param speedMPerS speed of sound, 250 to 450
 */
public record Air(double densityKgPerM3, double speedMPerS) {
  /** Dry air at 20 degrees Celsius and sea level. */
  public static final Air ROOM = new Air(1.204, 343.2);

  /** Checks both values. */
  public Air {
    require("density of the air", densityKgPerM3, 0.5, 2, "kg/m3");
    require("speed of sound", speedMPerS, 250, 450, "m/s");
  }

  /**
   * Air at sea level and the given temperature: an ideal gas, so that density falls with absolute
   * temperature and the speed of sound rises with its root (ISO 9613-1, from memory).
   *
   * @param celsius -30 to 60
   */
  public static Air at(double celsius) {
    require("temperature of the air", celsius, -30, 60, "degrees Celsius");
    double ratio = (celsius + 273.15) / 293.15;
    return new Air(ROOM.densityKgPerM3 / ratio, ROOM.speedMPerS * Math.sqrt(ratio));
  }

  /** Stiffness of the air itself, density x speed squared, in Pa. */
  public double bulkModulusPa() {
    return densityKgPerM3 * speedMPerS * speedMPerS;
  }
}
