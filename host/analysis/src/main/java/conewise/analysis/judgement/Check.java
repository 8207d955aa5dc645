package conewise.analysis.judgement;

import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import java.util.Optional;

/**
 * One question asked of the box and its answer.
 *
 * @param id a stable short name for records and programs, e.g. {@code tuning}
 * @param title the question in words, e.g. "Vent tuning"
 * @param decision pass, fail, undecided or not judged
 * @param reading what was obtained, or why nothing was
 * @param limits what the plan allows, when the question has limits
 * @param reason one sentence that says why the decision is what it is
 * @param nextStep what to do next; empty when there is nothing to do
 */
public record Check(
    String id,
    String title,
    Decision decision,
    Outcome<Reading> reading,
    Optional<Interval> limits,
    String reason,
    Optional<String> nextStep) {

  /**
   * A value with its 95 % interval.
   *
   * @param value the best estimate
   * @param interval the interval that holds the true value with a probability of about 95 %
   * @param unit the unit in words: "ohm", "Hz", "peaks", "" for a pure number
   */
  public record Reading(double value, Interval interval, String unit) {
    public Reading {
      if (!Double.isFinite(value) || !interval.contains(value)) {
        throw new IllegalArgumentException(
            "the value " + value + " must be finite and lie in its interval " + interval);
      }
    }
  }

  /** The same check with something else to do next. */
  Check withNextStep(String step) {
    return new Check(id, title, decision, reading, limits, reason, Optional.of(step));
  }

  public Check {
    if (decision == Decision.PASS && reading instanceof Outcome.NoResult<Reading>) {
      throw new IllegalArgumentException(
          "check " + id + " cannot pass: no value was obtained for it");
    }
    if (reason.isBlank()) {
      throw new IllegalArgumentException("check " + id + " needs a reason");
    }
  }
}
