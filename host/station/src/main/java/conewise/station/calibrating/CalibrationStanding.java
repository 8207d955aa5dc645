package conewise.station.calibrating;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Verdict;
import conewise.protocol.JigIdentity;
import conewise.station.judging.Withheld;
import conewise.station.selftest.CheckReading;
import conewise.station.selftest.DriftWatch;
import java.time.Duration;
import java.time.ZonedDateTime;

/**
 * Whether the calibration that a sweep used can carry a pass where a shop demands one.
 *
 * @param kind what stands in the way, if anything
 * @param sentence the same in words
 * @param nextStep what to do about it
 */
public record CalibrationStanding(Kind kind, String sentence, String nextStep) {

  /** What may stand in the way. */
  public enum Kind {
    /** Nothing. */
    IN_ORDER,
    /** It is older than allowed, or dated in the future. */
    STALE,
    /** It is of another jig. */
    FOREIGN,
    /** The jig has no serial number, so that it cannot be known to be the one calibrated. */
    NAMELESS,
    /** There is none. */
    MISSING,
    /** A check resistor reads otherwise than it should. */
    CONTRADICTED,
    /** No check resistor has been read for too long. */
    UNCHECKED
  }

  private static final String CALIBRATE =
      "Calibrate this jig (conewise calibrate), then check the box again.";

  /** A calibration of another jig. */
  public static CalibrationStanding foreign(String because) {
    return new CalibrationStanding(Kind.FOREIGN, because, CALIBRATE);
  }

  /** No calibration, or not wanted. */
  public static CalibrationStanding missing(JigIdentity jig) {
    return new CalibrationStanding(
        Kind.MISSING,
        "There is no calibration of "
            + jig.jig().serial().map(serial -> "the jig " + serial).orElse("this jig")
            + "; its nominal scales were used.",
        CALIBRATE);
  }

  /**
   * Of a calibration that fits the jig.
   *
   * @param days the age from which on it is stale, in days
   */
  public static CalibrationStanding of(StoredCalibration stored, int days, ZonedDateTime now) {
    String id = "The calibration " + stored.calibration().id();
    if (stored.fromTheFuture(now)) {
      return new CalibrationStanding(
          Kind.STALE,
          id + " is dated in the future.",
          "Set this machine's clock, then check the box again.");
    }
    if (stored.olderThan(days, now)) {
      return new CalibrationStanding(
          Kind.STALE,
          id + " is " + stored.ageDays(now) + " days old; at most " + days + " are allowed.",
          CALIBRATE);
    }
    if (stored.jig().jig().serial().isEmpty()) {
      return new CalibrationStanding(
          Kind.NAMELESS,
          id + " may be of another jig of the same kind: this jig has no serial number.",
          "Give the jig one (conewise identify --give-serial), calibrate it, then check again.");
    }
    return new CalibrationStanding(Kind.IN_ORDER, id + " is in order.", "Go on.");
  }

  /**
   * Of a calibration that fits the jig, and of what the check resistors say.
   *
   * @param days the age from which on it is stale, in days
   * @param rule within how many days a check resistor must have been good
   */
  public static CalibrationStanding of(
      StoredCalibration stored, int days, DriftWatch watch, ShopRule rule, ZonedDateTime now) {
    CalibrationStanding alone = of(stored, days, now);
    if (alone.kind() != Kind.IN_ORDER) {
      return alone;
    }
    String id = "The calibration " + stored.calibration().id();
    if (watch.drifted().isPresent()) {
      return new CalibrationStanding(
          Kind.CONTRADICTED,
          id + " no longer holds: " + watch.drifted().get().words() + ".",
          "Clean the clips and read it again (conewise selftest); if it stays so, calibrate this"
              + " jig (conewise calibrate). Then check the box again.");
    }
    ZonedDateTime proven =
        watch
            .good()
            .map(CheckReading::taken)
            .filter(taken -> taken.isAfter(stored.taken()))
            .orElse(stored.taken());
    Duration since = Duration.between(proven, now);
    if (rule.checkDays() > 0 && since.compareTo(Duration.ofDays(rule.checkDays())) > 0) {
      return new CalibrationStanding(
          Kind.UNCHECKED,
          id
              + " was last proven "
              + since.toDays()
              + " days ago, by a check resistor or by being made; at most "
              + rule.checkDays()
              + " are allowed.",
          "Read the check resistor (conewise selftest --resistor), or calibrate this jig. Then"
              + " check the box again.");
    }
    return alone;
  }

  /**
   * Lets a box pass only where the calibration is in order: a pass becomes NOT_JUDGED with the
   * reason and the next step; any other verdict stands, with a note.
   */
  public Verdict hold(Verdict verdict) {
    if (kind == Kind.IN_ORDER) {
      return verdict;
    }
    return Withheld.pass(
        verdict,
        BenchFinding.Kind.CALIBRATION,
        "a pass needs a calibration that is in order",
        sentence,
        nextStep);
  }
}
