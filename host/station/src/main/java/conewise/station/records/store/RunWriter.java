package conewise.station.records.store;

import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.station.records.Appended;
import conewise.station.records.BoxRun;
import conewise.station.records.NamedEstimate;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import conewise.station.records.Sighting;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Optional;

/** Adds a run within a transaction. */
final class RunWriter {
  private final Engine engine;
  private final Connection connection;

  RunWriter(Engine engine, Connection connection) {
    this.engine = engine;
    this.connection = connection;
  }

  /** Adds the run, or answers what was answered when a run of the same token was added. */
  Appended append(BoxRun run) throws SQLException {
    engine.holdBox(connection, run.job(), run.serial());
    Optional<Appended> before = ofToken(run.token());
    if (before.isPresent()) {
      return before.get();
    }
    long job = job(run.job());
    Limits limits = limits(job, run.plan(), run.finished());
    int attempt = nextAttempt(job, run.serial());
    long id = addRun(run, job, limits, attempt);
    addDetail(id, run);
    addCaptures(id, run);
    addEstimates(id, run);
    for (Sighting sighting : run.sightings()) {
      add(id, sighting);
    }
    new JudgementWriter(connection)
        .add(id, limits.id(), run.finished(), run.software(), run.verdict());
    return new Appended(id, attempt, limits.version());
  }

  private Optional<Appended> ofToken(String token) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT r.id, r.attempt, l.version FROM run r JOIN limits l ON l.id = r.limits_id"
                + " WHERE r.token = ?")) {
      return sql.with(token)
          .first(row -> new Appended(row.number("id"), row.count("attempt"), row.count("version")));
    }
  }

  private long job(String name) throws SQLException {
    try (Sql find = new Sql(connection, "SELECT id FROM job WHERE name = ?");
        Sql add = new Sql(connection, "INSERT INTO job (name) VALUES (?) RETURNING id")) {
      Optional<Long> known = find.with(name).first(row -> row.number("id"));
      return known.isPresent() ? known.get() : add.with(name).addNumbered();
    }
  }

  /**
   * One version of a job's limits.
   *
   * @param id in the database
   * @param version counted within the job, from 1
   */
  record Limits(long id, int version) {}

  /** The job's limits of this plan; a text that the job has not met yet is its next version. */
  Limits limits(long job, PlanText plan, Instant since) throws SQLException {
    String hash = plan.hash();
    try (Sql find =
            new Sql(
                connection, "SELECT id, version FROM limits WHERE job_id = ? AND plan_hash = ?");
        Sql count =
            new Sql(
                connection,
                "SELECT COALESCE(MAX(version), 0) + 1 AS next FROM limits WHERE job_id = ?");
        Sql add =
            new Sql(
                connection,
                "INSERT INTO limits (job_id, version, plan_hash, since) VALUES (?, ?, ?, ?)"
                    + " RETURNING id")) {
      Optional<Limits> known =
          find.with(job, hash).first(row -> new Limits(row.number("id"), row.count("version")));
      if (known.isPresent()) {
        return known.get();
      }
      addPlan(hash, plan, since);
      int version = count.with(job).first(row -> row.count("next")).orElseThrow();
      return new Limits(add.with(job, version, hash, since).addNumbered(), version);
    }
  }

  private void addPlan(String hash, PlanText plan, Instant since) throws SQLException {
    try (Sql find = new Sql(connection, "SELECT hash FROM plan WHERE hash = ?");
        Sql add =
            new Sql(
                connection, "INSERT INTO plan (hash, format, text, kept_at) VALUES (?, ?, ?, ?)")) {
      if (find.with(hash).first(row -> hash).isEmpty()) {
        add.with(hash, plan.format(), plan.text(), since).add();
      }
    }
  }

  private int nextAttempt(long job, String serial) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT COALESCE(MAX(attempt), 0) + 1 AS next FROM run WHERE job_id = ? AND serial ="
                + " ?")) {
      return sql.with(job, serial).first(row -> row.count("next")).orElseThrow();
    }
  }

  private long addRun(BoxRun run, long job, Limits limits, int attempt) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO run (token, job_id, limits_id, serial, attempt, started_at, finished_at,"
                + " decision, operator, station, jig_serial, jig_board, jig_firmware, calibration,"
                + " temperature_c, software)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id")) {
      return sql.with(
              run.token(),
              job,
              limits.id(),
              run.serial(),
              attempt,
              run.started(),
              run.finished(),
              run.verdict().decision(),
              run.operator(),
              run.station(),
              run.jig().serial(),
              run.jig().board(),
              run.jig().firmware(),
              run.jig().calibration(),
              run.jig().temperatureC(),
              run.software())
          .addNumbered();
    }
  }

  private void addDetail(long id, BoxRun run) throws SQLException {
    Object curve = Sql.None.BYTES;
    Optional<String> because = Optional.empty();
    if (run.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found) {
      curve = Packed.of(found.value());
    } else if (run.measurement().curve() instanceof Outcome.NoResult<ImpedanceCurve> none) {
      because = Optional.of(none.because());
    }
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO run_detail (run_id, curve, no_curve_because, findings, facts)"
                + " VALUES (?, ?, ?, ?, ?)")) {
      sql.with(
              id,
              curve,
              because,
              Documents.ofFindings(run.measurement().findings()),
              Documents.ofFacts(run.facts()))
          .add();
    }
  }

  private void addCaptures(long id, BoxRun run) throws SQLException {
    try (Sql capture =
        new Sql(connection, "INSERT INTO capture (run_id, place, samples) VALUES (?, ?, ?)")) {
      for (int i = 0; i < run.captures().size(); i++) {
        capture.with(id, i + 1, Packed.of(run.captures().get(i))).add();
      }
    }
    for (SweptState sweep : run.secondSweeps()) {
      add(id, sweep);
    }
  }

  /** Adds a sweep in another state behind those that are there. */
  void add(long id, SweptState sweep) throws SQLException {
    try (Sql count =
            new Sql(
                connection,
                "SELECT COALESCE(MAX(place), 0) + 1 AS next FROM second_sweep WHERE run_id = ?");
        Sql second =
            new Sql(
                connection,
                "INSERT INTO second_sweep (run_id, place, state, part, curve)"
                    + " VALUES (?, ?, ?, ?, ?)")) {
      int place = count.with(id).first(row -> row.count("next")).orElseThrow();
      State state = sweep.state();
      second
          .with(id, place, States.word(state), States.part(state), Packed.of(sweep.curve()))
          .add();
    }
  }

  private void addEstimates(long id, BoxRun run) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO estimate (run_id, place, name, value, low, high, unit)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?)")) {
      int place = 0;
      for (NamedEstimate each : run.estimates()) {
        sql.with(
                id,
                ++place,
                each.name(),
                each.estimate().value(),
                each.estimate().interval().low(),
                each.estimate().interval().high(),
                each.unit())
            .add();
      }
    }
  }

  void add(long id, Sighting sighting) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO sighting (run_id, seen_at, seen_by, kind, subject, seen, tone_hz, words)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?, ?)")) {
      sql.with(
              id,
              sighting.at(),
              sighting.by(),
              sighting.kind(),
              sighting.subject(),
              sighting.seen(),
              sighting.toneHz(),
              sighting.words())
          .add();
    }
  }

  void add(long id, Overruling overruling) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO overruling (run_id, ruled_at, ruled_by, decision, reason)"
                + " VALUES (?, ?, ?, ?, ?)")) {
      sql.with(id, overruling.at(), overruling.by(), overruling.decision(), overruling.reason())
          .add();
    }
  }
}
