package conewise.station.records.store;

import conewise.analysis.judgement.Decision;
import conewise.station.records.RunFilter;
import conewise.station.records.trend.Week;
import conewise.station.records.trend.WeekCount;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.zone.ZoneOffsetTransition;
import java.time.zone.ZoneRules;
import java.util.List;

/**
 * Counts runs by week and decision. The database reckons the week itself, from the clock changes of
 * the shop's zone, so that a row is read for each week and not for each run.
 */
final class WeekCounter {
  private static final long WEEK_MILLIS = 7 * 24 * 3_600_000L;
  private static final int DAYS = 7;

  /** 1970 began on a Thursday: so many days before it began the week that had it. */
  private static final int DAYS_BEFORE_1970 = 3;

  private static final long BEFORE_1970_MILLIS = DAYS_BEFORE_1970 * 24 * 3_600_000L;

  /** A zone changes its clocks twice a year: enough for two centuries of records. */
  private static final int MOST_CHANGES = 400;

  private final Connection connection;

  WeekCounter(Connection connection) {
    this.connection = connection;
  }

  /** All runs that a filter lets through. */
  List<WeekCount> count(RunFilter filter, ZoneId zone) throws SQLException {
    RunFinder.Narrowed narrowed = RunFinder.Narrowed.ofBoxes(filter);
    String week = week(zone);
    try (Sql sql =
        new Sql(
            connection,
            "SELECT "
                + week
                + " AS week, r.decision, COUNT(*) AS runs FROM run r"
                + narrowed.where()
                + " GROUP BY "
                + week
                + ", r.decision")) {
      return sql.with(narrowed.values().toArray())
          .all(
              row ->
                  new WeekCount(
                      Week.of(LocalDate.ofEpochDay(DAYS * row.number("week") - DAYS_BEFORE_1970)),
                      row.word("decision", Decision.class),
                      row.count("runs")));
    }
  }

  /** The number of a run's week, from the one that had the first day of 1970, as SQL. */
  private String week(ZoneId zone) throws SQLException {
    return "(r.finished_at + " + offset(zone) + " + " + BEFORE_1970_MILLIS + ") / " + WEEK_MILLIS;
  }

  /** How much the shop's clock is ahead at a run, as SQL. */
  private String offset(ZoneId zone) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT COALESCE(MIN(finished_at), 0) AS first, COALESCE(MAX(finished_at), 0) AS last"
                + " FROM run")) {
      return sql.first(row -> offset(zone.getRules(), row.instant("first"), row.instant("last")))
          .orElseThrow();
    }
  }

  private static String offset(ZoneRules rules, Instant first, Instant last) {
    StringBuilder changes = new StringBuilder();
    ZoneOffset now = rules.getOffset(first);
    ZoneOffsetTransition next = rules.nextTransition(first);
    for (int i = 0; i < MOST_CHANGES && next != null && !next.getInstant().isAfter(last); i++) {
      changes.append(" WHEN r.finished_at < ").append(next.getInstant().toEpochMilli());
      changes.append(" THEN ").append(millis(now));
      now = next.getOffsetAfter();
      next = rules.nextTransition(next.getInstant());
    }
    return changes.isEmpty()
        ? Long.toString(millis(now))
        : "CASE" + changes + " ELSE " + millis(now) + " END";
  }

  private static long millis(ZoneOffset offset) {
    return 1000L * offset.getTotalSeconds();
  }
}
