package conewise.station.card;

import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The paper that travels with a box: what it should be, what was measured, what is said of it.
 *
 * @param serial the box's own number, when one was given
 * @param attempt which attempt this is for that number, from 1; empty when runs are not kept
 * @param plan what the box should be
 * @param measurement what the sweep gave
 * @param verdict what is said of it
 * @param marks peaks and dips to point out on the curve
 * @param facts how it was measured: jig, calibration, sweep, date, versions
 * @param backdrop what its curve is held against
 */
public record JobCard(
    Optional<String> serial,
    OptionalInt attempt,
    PlannedBox plan,
    Measurement measurement,
    Verdict verdict,
    List<Mark> marks,
    List<Fact> facts,
    Backdrop backdrop) {

  /**
   * One line of how it was measured.
   *
   * @param label what the line is about, e.g. "Jig"
   * @param text what holds
   */
  public record Fact(String label, String text) {}

  public JobCard {
    marks = List.copyOf(marks);
    facts = List.copyOf(facts);
    if (attempt.isPresent() && attempt.getAsInt() < 1) {
      throw new IllegalArgumentException(
          "the attempt is " + attempt.getAsInt() + "; attempts count from 1");
    }
  }

  /** A card whose curve is held against nothing. */
  public JobCard(
      Optional<String> serial,
      OptionalInt attempt,
      PlannedBox plan,
      Measurement measurement,
      Verdict verdict,
      List<Mark> marks,
      List<Fact> facts) {
    this(serial, attempt, plan, measurement, verdict, marks, facts, Backdrop.NONE);
  }

  /** The same card with its curve held against something. */
  public JobCard with(Backdrop other) {
    return new JobCard(serial, attempt, plan, measurement, verdict, marks, facts, other);
  }

  /** The same card with the number of its attempt. */
  public JobCard numbered(int number) {
    return new JobCard(
        serial, OptionalInt.of(number), plan, measurement, verdict, marks, facts, backdrop);
  }

  /** The same card with another verdict. */
  public JobCard saying(Verdict other) {
    return new JobCard(serial, attempt, plan, measurement, other, marks, facts, backdrop);
  }
}
