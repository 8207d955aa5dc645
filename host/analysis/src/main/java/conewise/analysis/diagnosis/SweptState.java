package conewise.analysis.diagnosis;

import conewise.analysis.impedance.ImpedanceCurve;

/**
 * A sweep and the state in which it was taken.
 *
 * @param state the box then
 * @param curve its impedance
 */
public record SweptState(State state, ImpedanceCurve curve) {

  /** A sweep of a box as it came. */
  public static SweptState asBuilt(ImpedanceCurve curve) {
    return new SweptState(new State.AsBuilt(), curve);
  }
}
