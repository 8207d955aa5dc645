package conewise.station.calibrating;

import conewise.jig.sweep.Calibration;
import conewise.protocol.JigIdentity;
import java.time.Duration;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;

/**
 * A calibration with what must be known to trust it later.
 *
 * @param calibration the correction and its id
 * @param taken when it was made
 * @param toleranceFraction the resistor's tolerance over its value
 * @param jig the jig it was made on
 */
public record StoredCalibration(
    Calibration calibration, ZonedDateTime taken, double toleranceFraction, JigIdentity jig) {

  /** Older than this it is said to be old: common practice for a bench fixture. */
  private static final Duration OLD = Duration.ofDays(30);

  /**
   * Why this calibration may not be used with a jig.
   *
   * @param other the jig that is there
   * @return one sentence, or nothing when it may
   */
  public Optional<String> foreignTo(JigIdentity other) {
    // The id that the jig stores is no part of what it is.
    if (other.clock().equals(jig.clock())
        && other.converter().equals(jig.converter())
        && other.channels().equals(jig.channels())
        && other.drive().equals(jig.drive())
        && other.jig().board().equals(jig.jig().board())
        && other.jig().serial().equals(jig.jig().serial())) {
      return Optional.empty();
    }
    return Optional.of(
        "The calibration "
            + calibration.id()
            + " was made on "
            + name(jig)
            + ", but this is "
            + name(other)
            + "; calibrate this jig, or use its own calibration.");
  }

  /** What a job card says of it. */
  public String describe(ZonedDateTime now) {
    long days = Duration.between(taken, now).toDays();
    String age = days == 1 ? "1 day old" : days + " days old";
    if (taken.isAfter(now.plusDays(1))) {
      return calibration.id() + ", dated in the future: check this machine's clock";
    }
    String old =
        Duration.between(taken, now).compareTo(OLD) > 0
            ? ": older than " + OLD.toDays() + " days, calibrate again"
            : "";
    return calibration.id()
        + " of "
        + DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH).format(taken)
        + ", "
        + age
        + old;
  }

  private static String name(JigIdentity identity) {
    return "board "
        + identity.jig().board()
        + identity.jig().serial().map(serial -> ", serial " + serial).orElse(", without a serial");
  }
}
