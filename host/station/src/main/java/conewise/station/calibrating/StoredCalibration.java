package conewise.station.calibrating;

import conewise.jig.sweep.Calibration;
import conewise.protocol.JigIdentity;
import java.time.Duration;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A calibration with what must be known to trust it later.
 *
 * @param calibration the correction and its id
 * @param taken when it was made
 * @param toleranceFraction the resistor's tolerance over its value
 * @param jig the jig it was made on
 * @param temperatureCelsius the room's temperature then, where somebody said it
 */
public record StoredCalibration(
    Calibration calibration,
    ZonedDateTime taken,
    double toleranceFraction,
    JigIdentity jig,
    Optional<Double> temperatureCelsius) {

  /** Older than this many days it is stale by itself: common practice for a bench fixture. */
  public static final int USUAL_DAYS = 30;

  /** Clocks of two machines may differ by this much. */
  private static final Duration CLOCKS_DIFFER = Duration.ofDays(1);

  /** Checks the temperature. */
  public StoredCalibration {
    if (temperatureCelsius.isPresent()
        && !(temperatureCelsius.get() >= -40 && temperatureCelsius.get() <= 85)) {
      throw new IllegalArgumentException(
          "the temperature is "
              + temperatureCelsius.get()
              + " degrees Celsius; it must be from -40 to 85");
    }
  }

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

  /** Whether it says to be from the future: then this machine's clock or the other's is wrong. */
  boolean fromTheFuture(ZonedDateTime now) {
    return taken.isAfter(now.plus(CLOCKS_DIFFER));
  }

  /** Whether it is older than so many days. */
  boolean olderThan(int days, ZonedDateTime now) {
    return Duration.between(taken, now).compareTo(Duration.ofDays(days)) > 0;
  }

  /** Its age in whole days, 0 where the clocks differ a little. */
  long ageDays(ZonedDateTime now) {
    return Math.max(0, Duration.between(taken, now).toDays());
  }

  /** So many days before it is stale that is said. */
  static final int SAID_DAYS_BEFORE = 7;

  /**
   * How many whole days are left before it is stale; none where it is, or is from the future.
   *
   * @param days the age from which on it is stale
   */
  public OptionalLong daysLeft(int days, ZonedDateTime now) {
    return fromTheFuture(now) || olderThan(days, now)
        ? OptionalLong.empty()
        : OptionalLong.of(Duration.between(now, taken.plusDays(days)).toDays());
  }

  /** That it must be made anew within a week, where that is so. */
  public Optional<String> due(int days, ZonedDateTime now) {
    OptionalLong left = daysLeft(days, now);
    if (left.isEmpty() || left.getAsLong() > SAID_DAYS_BEFORE) {
      return Optional.empty();
    }
    return Optional.of(
        "Calibrate "
            + (left.getAsLong() == 0
                ? "today"
                : left.getAsLong() == 1 ? "within 1 day" : "within " + left.getAsLong() + " days")
            + ".");
  }

  /**
   * What a job card says of it.
   *
   * @param days from when on it is old
   */
  public String describe(ZonedDateTime now, int days) {
    if (fromTheFuture(now)) {
      return calibration.id() + ", dated in the future: check this machine's clock";
    }
    long age = ageDays(now);
    return calibration.id()
        + " of "
        + DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH).format(taken)
        + ", "
        + (age == 1 ? "1 day old" : age + " days old")
        + (olderThan(days, now)
            ? ": older than " + days + " days, calibrate again"
            : due(days, now).map(when -> ". " + when.replaceFirst("[.]$", "")).orElse(""));
  }

  private static String name(JigIdentity identity) {
    return "board "
        + identity.jig().board()
        + identity.jig().serial().map(serial -> ", serial " + serial).orElse(", without a serial");
  }
}
