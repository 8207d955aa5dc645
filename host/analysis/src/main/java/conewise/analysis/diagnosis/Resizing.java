package conewise.analysis.diagnosis;

import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.PlannedBox;

/** Makes a space of a planned box larger or smaller, or seem so. */
record Resizing(PlannedBox plan) {

  /**
   * The candidate with a space of another size. A vent's mass stays, so what it tunes to goes with
   * the root of the volume.
   *
   * @param off the logarithm of the factor that is expected
   * @param spread its standard deviation
   */
  Candidate of(Candidate candidate, String space, double off, double spread) {
    Candidate changed = candidate.expecting(Kind.VOLUME, off, spread, space);
    for (PlannedBox.PlannedVent vent : plan.vents()) {
      if (vent.behind().equals(space)) {
        changed = changed.expecting(Kind.TUNING, -off / 2, spread / 2, vent.name());
      }
    }
    return changed;
  }
}
