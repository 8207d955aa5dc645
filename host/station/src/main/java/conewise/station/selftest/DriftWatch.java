package conewise.station.selftest;

import java.time.Duration;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What a jig's check resistors say of one calibration, from the readings that are kept.
 *
 * @param drifted the latest reading of a resistor that has drifted, and what it is held against;
 *     the youngest, where there are several
 * @param good the youngest reading that was good
 */
public record DriftWatch(Optional<Told> drifted, Optional<CheckReading> good) {

  /** Clocks of two machines may differ by this much; a reading from later than that is none. */
  private static final Duration CLOCKS_DIFFER = Duration.ofDays(1);

  /** A reading and what came of it. */
  public record Told(CheckReading reading, Drift drift) {
    /** One sentence without its end: which resistor, when, how far off. */
    public String words() {
      Drift.Comparison off =
          drift.againstValue().word() == Drift.Word.DRIFTED
              ? drift.againstValue()
              : drift.againstFirst().orElse(drift.againstValue());
      return String.format(
          Locale.ROOT,
          "the check resistor %s read %.4g ohm on %s, %.1f %% off %.4g ohm; at most %.2g %% is"
              + " allowed",
          reading.resistor(),
          reading.readOhm(),
          day(reading.taken()),
          100 * Math.abs(off.deviation()),
          off.expectedOhm(),
          100 * drift.limitFraction());
    }
  }

  /** Nothing was ever read. */
  public static DriftWatch nothing() {
    return new DriftWatch(Optional.empty(), Optional.empty());
  }

  /**
   * Looks through the readings.
   *
   * @param readings all that the jig took, in the order in which they were taken
   * @param calibration the calibration's name; readings under another say nothing of it
   * @param limitFraction how far a reading may deviate, positive
   * @param now later readings are passed over: a clock was wrong
   */
  public static DriftWatch of(
      List<CheckReading> readings, String calibration, double limitFraction, ZonedDateTime now) {
    Optional<Told> drifted = Optional.empty();
    Optional<CheckReading> good = Optional.empty();
    List<CheckReading> earlier = new ArrayList<>();
    List<Told> latest = new ArrayList<>();
    for (CheckReading reading : readings) {
      if (reading.calibration().equals(Optional.of(calibration))
          && !reading.taken().isAfter(now.plus(CLOCKS_DIFFER))) {
        Told told = new Told(reading, Drift.of(reading, earlier, limitFraction));
        latest.removeIf(each -> each.reading().resistor().equals(reading.resistor()));
        latest.add(told);
        if (told.drift().word() == Drift.Word.GOOD) {
          good = Optional.of(reading);
        }
      }
      earlier.add(reading);
    }
    for (Told told : latest) {
      if (told.drift().word() == Drift.Word.DRIFTED) {
        drifted = Optional.of(told);
      }
    }
    return new DriftWatch(drifted, good);
  }

  /** What a job card says of it, or nothing. */
  public Optional<String> words() {
    return drifted
        .map(told -> "contradicted: " + told.words())
        .or(() -> good.map(reading -> "check resistor good on " + day(reading.taken())));
  }

  private static String day(ZonedDateTime time) {
    return DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH).format(time);
  }
}
