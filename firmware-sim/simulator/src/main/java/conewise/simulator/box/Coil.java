package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

/**
 * One voice coil of a driver.
 *
 * @param resistanceOhm DC resistance
 * @param forceFactorTm force for each ampere, which is also volt for each metre a second
 * @param turns relative number of turns, 1 as a rule: scales the inductance by its square
 */
public record Coil(double resistanceOhm, double forceFactorTm, double turns) {
  /** Checks the values. */
  public Coil {
    require("DC resistance of a coil", resistanceOhm, 1e-3, 1e4, "ohm");
    require("force factor of a coil", forceFactorTm, 0, 1000, "T m");
    require("relative turns of a coil", turns, 1e-3, 1e3, "");
  }

  /** A coil of the usual number of turns. */
  public Coil(double resistanceOhm, double forceFactorTm) {
    this(resistanceOhm, forceFactorTm, 1);
  }
}
