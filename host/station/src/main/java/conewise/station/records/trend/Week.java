package conewise.station.records.trend;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.IsoFields;
import java.util.Locale;

/**
 * A week of ISO 8601: Monday to Sunday; week 1 has the year's first Thursday.
 *
 * @param year the year that the week belongs to
 * @param number 1 to 53
 */
public record Week(int year, int number) implements Comparable<Week> {
  /** The week of an instant, by the shop's own clock. */
  public static Week of(Instant instant, ZoneId zone) {
    return of(instant.atZone(zone).toLocalDate());
  }

  /** The week of a day. */
  public static Week of(LocalDate day) {
    return new Week(day.get(IsoFields.WEEK_BASED_YEAR), day.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR));
  }

  @Override
  public int compareTo(Week other) {
    return year == other.year
        ? Integer.compare(number, other.number)
        : Integer.compare(year, other.year);
  }

  /** As ISO 8601 writes it: {@code 2026-W48}. */
  @Override
  public String toString() {
    return String.format(Locale.ROOT, "%04d-W%02d", year, number);
  }
}
