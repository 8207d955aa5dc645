package conewise.station.records.store;

import conewise.analysis.judgement.Decision;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** Finds runs, newest first. */
final class RunFinder {
  private final Connection connection;

  RunFinder(Connection connection) {
    this.connection = connection;
  }

  List<RunLine> list(RunFilter filter) throws SQLException {
    // A box has few runs: its own index is quicker than one that has them in order of time already.
    String time = filter.serial().isPresent() ? "r.finished_at + 0" : "r.finished_at";
    return list(filter, "", time + " DESC, r.id DESC");
  }

  /** The last run of each box that had more than one, most attempts first. */
  List<RunLine> lastOfRetested(RunFilter filter) throws SQLException {
    return list(
        filter,
        "r.attempt > 1 AND NOT EXISTS (SELECT 1 FROM run later WHERE later.job_id = r.job_id"
            + " AND later.serial = r.serial AND later.attempt > r.attempt)",
        "r.attempt DESC, r.finished_at DESC, r.id DESC");
  }

  /** Runs whose verdict a person overruled, newest first. */
  List<RunLine> overruled(RunFilter filter) throws SQLException {
    return list(filter, "r.id IN (SELECT run_id FROM overruling)", "r.finished_at DESC, r.id DESC");
  }

  private List<RunLine> list(RunFilter filter, String condition, String order) throws SQLException {
    Narrowed narrowed = Narrowed.by(filter);
    String where = narrowed.where();
    if (!condition.isEmpty()) {
      where += (where.isEmpty() ? " WHERE " : " AND ") + condition;
    }
    List<Object> values = new ArrayList<>(narrowed.values());
    values.add(filter.most());
    try (Sql sql =
        new Sql(
            connection,
            "SELECT r.id, j.name AS job, r.serial, r.attempt, l.version, r.finished_at, r.decision,"
                + " g.headline, g.fault, r.operator, r.station,"
                + " (SELECT o.decision FROM overruling o WHERE o.run_id = r.id"
                + " ORDER BY o.id DESC LIMIT 1) AS overruled"
                + " FROM run r JOIN job j ON j.id = r.job_id JOIN limits l ON l.id = r.limits_id"
                + " JOIN judgement g ON g.run_id = r.id AND g.number = 1"
                + where
                + " ORDER BY "
                + order
                + " LIMIT ?")) {
      return sql.with(values.toArray()).all(RunFinder::line);
    }
  }

  private static RunLine line(Sql.Row row) throws SQLException {
    return new RunLine(
        row.number("id"),
        row.text("job"),
        row.text("serial"),
        row.count("attempt"),
        row.count("version"),
        row.instant("finished_at"),
        row.word("decision", Decision.class),
        row.text("headline"),
        row.maybeText("fault"),
        row.maybeText("operator"),
        row.text("station"),
        row.maybeText("overruled").map(Decision::valueOf));
  }

  /** The condition that a filter makes on the table run, called r, and its values. */
  record Narrowed(String where, List<Object> values) {
    static Narrowed by(RunFilter filter) {
      List<String> conditions = new ArrayList<>();
      List<Object> values = new ArrayList<>();
      filter.since().ifPresent(at -> add(conditions, "r.finished_at >= ?", values, at));
      filter.until().ifPresent(at -> add(conditions, "r.finished_at < ?", values, at));
      filter
          .job()
          .ifPresent(
              job ->
                  add(conditions, "r.job_id = (SELECT id FROM job WHERE name = ?)", values, job));
      filter.serial().ifPresent(serial -> add(conditions, "r.serial = ?", values, serial));
      filter.decision().ifPresent(word -> add(conditions, "r.decision = ?", values, word));
      String where = conditions.isEmpty() ? "" : " WHERE " + String.join(" AND ", conditions);
      return new Narrowed(where, values);
    }

    private static void add(
        List<String> conditions, String condition, List<Object> values, Object value) {
      conditions.add(condition);
      values.add(value);
    }
  }
}
