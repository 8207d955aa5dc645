package conewise.station.records.store;

import conewise.analysis.judgement.Decision;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Finds runs, newest first. */
final class RunFinder {
  private static final String WHERE = " WHERE ";

  private final Connection connection;

  RunFinder(Connection connection) {
    this.connection = connection;
  }

  /** The job of a run; empty where there is no run of that number. */
  Optional<Long> jobOf(long run) throws SQLException {
    try (Sql sql = new Sql(connection, "SELECT job_id FROM run WHERE id = ?")) {
      return sql.with(run).first(row -> row.number("job_id"));
    }
  }

  /** How often a run was overruled. */
  int overrulings(long run) throws SQLException {
    try (Sql sql =
        new Sql(connection, "SELECT COUNT(*) AS times FROM overruling WHERE run_id = ?")) {
      return sql.with(run).first(row -> row.count("times")).orElseThrow();
    }
  }

  /** Those before a place, or from the newest on. */
  List<RunLine> list(RunFilter filter, Optional<RunLine.Place> before) throws SQLException {
    // A box has few runs: its own index is quicker than one that has them in order of time already.
    String time = filter.serial().isPresent() ? "r.finished_at + 0" : "r.finished_at";
    List<Object> values = new ArrayList<>();
    before.ifPresent(place -> values.addAll(List.of(place.finished(), place.id())));
    return list(
        filter,
        before.isPresent() ? "(" + time + ", r.id) < (?, ?)" : "",
        values,
        time + " DESC, r.id DESC");
  }

  /** The last run of each box that had more than one, most attempts first. */
  List<RunLine> lastOfRetested(RunFilter filter) throws SQLException {
    Narrowed narrowed = Narrowed.ofBoxes(filter);
    String order = "r.attempt DESC, r.finished_at DESC, r.id DESC";
    List<Object> values = new ArrayList<>(narrowed.values());
    values.add(filter.most());
    // The few that are shown are found first, by an index alone, and looked up then.
    return list(
        filter,
        "r.id IN (SELECT r.id FROM run r WHERE r.attempt > 1 AND NOT EXISTS (SELECT 1 FROM run"
            + " later WHERE later.job_id = r.job_id AND later.serial = r.serial"
            + " AND later.attempt > r.attempt)"
            + narrowed.and()
            + " ORDER BY "
            + order
            + " LIMIT ?)",
        values,
        order);
  }

  /** Runs whose verdict a person overruled, newest first. */
  List<RunLine> overruled(RunFilter filter) throws SQLException {
    return list(
        filter,
        "r.id IN (SELECT run_id FROM overruling)",
        List.of(),
        "r.finished_at DESC, r.id DESC");
  }

  private List<RunLine> list(
      RunFilter filter, String condition, List<Object> ofCondition, String order)
      throws SQLException {
    Narrowed narrowed = Narrowed.by(filter);
    String where = narrowed.where();
    if (!condition.isEmpty()) {
      where += (where.isEmpty() ? WHERE : " AND ") + condition;
    }
    List<Object> values = new ArrayList<>(narrowed.values());
    values.addAll(ofCondition);
    values.add(filter.most());
    try (Sql sql =
        new Sql(
            connection,
            "SELECT r.id, j.name AS job, r.serial, r.attempt, l.version, r.finished_at, r.decision,"
                + " g.headline, g.fault, r.operator, r.station,"
                + " (SELECT MAX(number) FROM judgement n WHERE n.run_id = r.id) AS judgements,"
                + " (SELECT n.decision FROM judgement n WHERE n.run_id = r.id"
                + " ORDER BY n.number DESC LIMIT 1) AS later,"
                + " o.ruled_at, o.ruled_by, o.decision AS ruled, o.reason"
                + " FROM run r JOIN job j ON j.id = r.job_id JOIN limits l ON l.id = r.limits_id"
                + " JOIN judgement g ON g.run_id = r.id AND g.number = 1"
                + " LEFT JOIN overruling o ON o.id ="
                + " (SELECT MAX(id) FROM overruling WHERE run_id = r.id)"
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
        row.count("judgements") > 1
            ? Optional.of(row.word("later", Decision.class))
            : Optional.empty(),
        overruling(row));
  }

  private static Optional<Overruling> overruling(Sql.Row row) throws SQLException {
    if (row.maybeText("ruled").isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Overruling(
            row.instant("ruled_at"),
            row.text("ruled_by"),
            row.word("ruled", Decision.class),
            row.text("reason")));
  }

  /** The condition that a filter makes on the table run, called r, and its values. */
  record Narrowed(String where, List<Object> values) {
    /** The same to go on behind another condition. */
    String and() {
      return where.isEmpty() ? "" : " AND " + where.substring(WHERE.length());
    }

    /**
     * The same where each box is looked up by its own index: without the sum a span of time would
     * be looked up instead, for every box anew (100 000 boxes took minutes).
     */
    String andOfEachBox() {
      return and().replace("r.finished_at", "r.finished_at + 0");
    }

    static Narrowed by(RunFilter filter) {
      return by(filter, new ArrayList<>(), new ArrayList<>());
    }

    /** The same, without the runs that prove the fixture, unless their job is asked for. */
    static Narrowed ofBoxes(RunFilter filter) {
      List<String> conditions = new ArrayList<>();
      List<Object> values = new ArrayList<>();
      if (filter.job().isEmpty()) {
        // By their numbers, which every index has, so that one alone still answers a count.
        String others =
            "r.id NOT IN (SELECT c.id FROM run c WHERE c.job_id ="
                + " (SELECT id FROM job WHERE name = ?))";
        add(conditions, others, values, BoxRun.CHALLENGE_JOB);
      }
      return by(filter, conditions, values);
    }

    private static Narrowed by(RunFilter filter, List<String> conditions, List<Object> values) {
      filter.since().ifPresent(at -> add(conditions, "r.finished_at >= ?", values, at));
      filter.until().ifPresent(at -> add(conditions, "r.finished_at < ?", values, at));
      filter
          .job()
          .ifPresent(
              job ->
                  add(conditions, "r.job_id = (SELECT id FROM job WHERE name = ?)", values, job));
      filter.serial().ifPresent(serial -> add(conditions, "r.serial = ?", values, serial));
      filter.decision().ifPresent(word -> add(conditions, "r.decision = ?", values, word));
      String where = conditions.isEmpty() ? "" : WHERE + String.join(" AND ", conditions);
      return new Narrowed(where, values);
    }

    private static void add(
        List<String> conditions, String condition, List<Object> values, Object value) {
      conditions.add(condition);
      values.add(value);
    }
  }
}
