package conewise.jig.sweep;

import conewise.jig.client.JigFault;

/**
 * A sweep that did not run to its end. There is nothing to judge; the sweep can go on from its
 * state.
 *
 * @param fault why
 * @param state what was measured
 */
public record Interrupted(JigFault fault, SweepState state) implements SweepOutcome {

  /** Why, in one sentence. */
  public String because() {
    return fault.sentence();
  }

  /** What to do about it, in one sentence. */
  public String nextStep() {
    return fault.nextStep();
  }
}
