package conewise.analysis.vent;

import conewise.analysis.model.Air;

/**
 * A tuning in other air. Mass of the air in the vent and stiffness of that in the box both follow
 * the air's density, so what is left is the speed of sound: the tuning goes with it (derived from
 * Helmholtz's formula).
 *
 * @param air the other air
 * @param tuningHz the tuning there
 * @param factor that tuning over the known one
 */
public record TuningByAir(Air air, double tuningHz, double factor) {

  /**
   * Moves a tuning.
   *
   * @param knownHz the tuning, above 0
   * @param knownAir the air that it is known in
   * @param air the other air
   */
  public static TuningByAir of(double knownHz, Air knownAir, Air air) {
    Sizes.require("the known tuning", knownHz);
    double factor = air.soundMPerS() / knownAir.soundMPerS();
    return new TuningByAir(air, knownHz * factor, factor);
  }
}
