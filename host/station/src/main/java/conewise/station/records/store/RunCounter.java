package conewise.station.records.store;

import conewise.analysis.judgement.Decision;
import conewise.station.records.RunFilter;
import conewise.station.records.trend.BoxAttempt;
import conewise.station.records.trend.ReadFigure;
import conewise.station.records.trend.Suspected;
import conewise.station.records.trend.WeeklyYield;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads of many runs the little that their statistics need. */
final class RunCounter {
  private final Connection connection;

  RunCounter(Connection connection) {
    this.connection = connection;
  }

  /** Yield by week. The database counts all runs; only those of boxes that came again are read. */
  List<WeeklyYield> weeklyYield(RunFilter filter, ZoneId zone) throws SQLException {
    return WeeklyYield.of(new WeekCounter(connection).count(filter, zone), again(filter), zone);
  }

  /**
   * The runs of boxes that have one that is not their first, as one of two always is; in order of
   * job, serial and attempt.
   */
  private List<BoxAttempt> again(RunFilter filter) throws SQLException {
    RunFinder.Narrowed narrowed = RunFinder.Narrowed.ofBoxes(filter);
    List<Object> values = new ArrayList<>(narrowed.values());
    values.addAll(narrowed.values());
    Map<Long, String> jobs = new HashMap<>();
    try (Sql names = new Sql(connection, "SELECT id, name FROM job");
        Sql sql =
            new Sql(
                connection,
                "SELECT r.job_id, r.serial, r.attempt, r.finished_at, r.decision FROM ("
                    + "SELECT DISTINCT r.job_id, r.serial FROM run r WHERE r.attempt > 1"
                    + narrowed.and()
                    + ") a CROSS JOIN run r WHERE r.job_id = a.job_id AND r.serial = a.serial"
                    + narrowed.andOfEachBox()
                    + " ORDER BY r.job_id, r.serial, r.attempt")) {
      names.all(row -> jobs.put(row.number("id"), row.text("name")));
      return sql.with(values.toArray())
          .all(
              row ->
                  new BoxAttempt(
                      jobs.get(row.number("job_id")),
                      row.text("serial"),
                      row.count("attempt"),
                      row.instant("finished_at"),
                      row.word("decision", Decision.class)));
    }
  }

  /** Failed runs in order of time. */
  List<Suspected> suspected(RunFilter filter) throws SQLException {
    RunFinder.Narrowed narrowed = RunFinder.Narrowed.ofBoxes(failed(filter));
    try (Sql sql =
        new Sql(
            connection,
            "SELECT j.name AS job, r.serial, r.finished_at, g.fault"
                + " FROM run r JOIN job j ON j.id = r.job_id"
                + " JOIN judgement g ON g.run_id = r.id AND g.number = 1"
                + narrowed.where()
                + " ORDER BY r.finished_at, r.id")) {
      return sql.with(narrowed.values().toArray())
          .all(
              row ->
                  new Suspected(
                      row.text("job"),
                      row.text("serial"),
                      row.instant("finished_at"),
                      row.maybeText("fault").orElse("not said")));
    }
  }

  private static RunFilter failed(RunFilter filter) {
    return new RunFilter(
        filter.since(),
        filter.until(),
        filter.job(),
        filter.serial(),
        Optional.of(Decision.FAIL),
        filter.most());
  }

  /** The newest ones, in order of time; a check of that name goes before an estimate. */
  List<ReadFigure> figures(String name, RunFilter filter) throws SQLException {
    List<ReadFigure> ofChecks =
        figures(
            name,
            filter,
            " JOIN judgement g ON g.run_id = r.id AND g.number = 1"
                + " JOIN check_result f ON f.judgement_id = g.id AND f.check_id = ?"
                + " AND f.value IS NOT NULL");
    return ofChecks.isEmpty()
        ? figures(name, filter, " JOIN estimate f ON f.run_id = r.id AND f.name = ?")
        : ofChecks;
  }

  private List<ReadFigure> figures(String name, RunFilter filter, String join) throws SQLException {
    RunFinder.Narrowed narrowed = RunFinder.Narrowed.ofBoxes(filter);
    List<Object> values = new ArrayList<>(List.of(name));
    values.addAll(narrowed.values());
    values.add(filter.most());
    String columns = "r.id, r.serial, r.finished_at, f.value, f.unit";
    try (Sql sql =
        new Sql(
            connection,
            "SELECT * FROM (SELECT "
                + columns
                + " FROM run r"
                + join
                + narrowed.where()
                + " ORDER BY r.finished_at DESC, r.id DESC LIMIT ?) newest ORDER BY finished_at,"
                + " id")) {
      return sql.with(values.toArray())
          .all(
              row ->
                  new ReadFigure(
                      row.number("id"),
                      row.text("serial"),
                      row.instant("finished_at"),
                      row.real("value"),
                      row.text("unit")));
    }
  }

  /** The checks that gave a value and the estimates there are, by name. */
  List<String> figureNames(RunFilter filter) throws SQLException {
    RunFinder.Narrowed narrowed = RunFinder.Narrowed.ofBoxes(filter);
    String newest =
        "(SELECT r.id FROM run r" + narrowed.where() + " ORDER BY r.finished_at DESC LIMIT 200)";
    List<Object> values = new ArrayList<>(narrowed.values());
    values.addAll(narrowed.values());
    try (Sql sql =
        new Sql(
            connection,
            "SELECT DISTINCT c.check_id AS name FROM judgement g JOIN check_result c"
                + " ON c.judgement_id = g.id AND c.value IS NOT NULL WHERE g.number = 1 AND"
                + " g.run_id IN "
                + newest
                + " UNION SELECT DISTINCT e.name FROM estimate e WHERE e.run_id IN "
                + newest
                + " ORDER BY name")) {
      return sql.with(values.toArray()).all(row -> row.text("name"));
    }
  }

  /** All serials of a job that have a run, in order. */
  List<String> serials(String job) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT DISTINCT r.serial FROM run r JOIN job j ON j.id = r.job_id WHERE j.name = ?"
                + " ORDER BY r.serial")) {
      return sql.with(job).all(row -> row.text("serial"));
    }
  }
}
