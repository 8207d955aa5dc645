package conewise.station.records.trend;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.TemporalAdjusters;
import java.util.Map;
import java.util.TreeMap;

/** Tells the week of many instants: each week is reckoned once. For one thread. */
final class WeekClock {
  /** A week from its first instant to its last. */
  private record Span(long endMillis, Week week) {}

  private final ZoneId zone;
  private final TreeMap<Long, Span> spans = new TreeMap<>();

  WeekClock(ZoneId zone) {
    this.zone = zone;
  }

  Week week(Instant instant) {
    long millis = instant.toEpochMilli();
    Map.Entry<Long, Span> known = spans.floorEntry(millis);
    if (known != null && millis < known.getValue().endMillis()) {
      return known.getValue().week();
    }
    LocalDate monday =
        instant.atZone(zone).toLocalDate().with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    Week week = Week.of(instant, zone);
    spans.put(millis(monday), new Span(millis(monday.plusWeeks(1)), week));
    return week;
  }

  private long millis(LocalDate day) {
    return day.atStartOfDay(zone).toInstant().toEpochMilli();
  }
}
