package conewise.station.records.store;

import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.station.card.JobCard;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.Judgement;
import conewise.station.records.KeptRun;
import conewise.station.records.NamedEstimate;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.Sighting;
import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads one run back, whole. */
final class RunReader {
  private static final String OF_RUN = " WHERE run_id = ? ORDER BY place";

  private final Connection connection;

  RunReader(Connection connection) {
    this.connection = connection;
  }

  /**
   * The run of a number; empty when there is none.
   *
   * @throws RecordsException when it is there and damaged
   */
  Optional<KeptRun> run(long id, boolean withCaptures) throws SQLException, RecordsException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT r.*, j.name AS job, l.version, p.format, p.text, d.curve, d.no_curve_because,"
                + " d.findings, d.facts FROM run r JOIN job j ON j.id = r.job_id"
                + " JOIN limits l ON l.id = r.limits_id JOIN plan p ON p.hash = l.plan_hash"
                + " JOIN run_detail d ON d.run_id = r.id WHERE r.id = ?")) {
      return sql.with(id).first(row -> run(row, id, withCaptures));
    } catch (Damaged damaged) {
      throw new RecordsException(
          RecordsException.Kind.NOT_READ,
          "Run "
              + id
              + " in the records is damaged ("
              + damaged.getMessage()
              + "); go back to a copy.",
          damaged);
    }
  }

  /** A kept thing that is not what was written. */
  private static final class Damaged extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Damaged(Exception cause) {
      super(cause.getMessage(), cause);
    }
  }

  @FunctionalInterface
  private interface Unpacking<T> {
    T unpack() throws IOException;
  }

  private static <T> T whole(Unpacking<T> unpacking) {
    try {
      return unpacking.unpack();
    } catch (IOException | IllegalArgumentException damaged) {
      throw new Damaged(damaged);
    }
  }

  private KeptRun run(Sql.Row row, long id, boolean withCaptures) throws SQLException {
    List<Judgement> judgements = judgements(id);
    if (judgements.isEmpty()) {
      throw new Damaged(new IOException("it has no verdict"));
    }
    PlanText plan = new PlanText(row.text("format"), row.text("text"));
    BoxRun run =
        new BoxRun(
            row.text("token"),
            row.text("job"),
            row.text("serial"),
            plan,
            row.maybeText("operator"),
            row.text("station"),
            jig(row),
            row.instant("started_at"),
            row.instant("finished_at"),
            row.text("software"),
            measurement(row),
            withCaptures ? captures(id) : List.of(),
            secondSweeps(id),
            estimates(id),
            judgements.get(0).verdict(),
            sightings(id),
            facts(row));
    return new KeptRun(
        id, row.count("attempt"), row.count("version"), run, judgements, overrulings(id));
  }

  private static JigUsed jig(Sql.Row row) throws SQLException {
    return new JigUsed(
        row.maybeText("jig_serial"),
        row.text("jig_board"),
        row.text("jig_firmware"),
        row.maybeText("calibration"),
        row.maybeReal("temperature_c"));
  }

  private static List<JobCard.Fact> facts(Sql.Row row) throws SQLException {
    String json = row.text("facts");
    return whole(() -> Documents.facts(json));
  }

  private static Measurement measurement(Sql.Row row) throws SQLException {
    Optional<byte[]> packed = row.maybeBytes("curve");
    String findings = row.text("findings");
    Outcome<ImpedanceCurve> curve =
        packed.isPresent()
            ? Outcome.found(whole(() -> Packed.curve(packed.get())))
            : Outcome.none(row.maybeText("no_curve_because").orElse("none was kept"));
    return new Measurement(curve, whole(() -> Documents.findings(findings)));
  }

  private List<Capture> captures(long id) throws SQLException {
    try (Sql sql = new Sql(connection, "SELECT samples FROM capture" + OF_RUN)) {
      return sql.with(id)
          .all(
              row -> {
                byte[] packed = row.maybeBytes("samples").orElseThrow();
                return whole(() -> Packed.capture(packed));
              });
    }
  }

  private List<SweptState> secondSweeps(long id) throws SQLException {
    try (Sql sql = new Sql(connection, "SELECT state, part, curve FROM second_sweep" + OF_RUN)) {
      return sql.with(id)
          .all(
              row -> {
                String state = row.text("state");
                String part = row.text("part");
                byte[] packed = row.maybeBytes("curve").orElseThrow();
                return whole(() -> new SweptState(States.of(state, part), Packed.curve(packed)));
              });
    }
  }

  private List<NamedEstimate> estimates(long id) throws SQLException {
    try (Sql sql =
        new Sql(connection, "SELECT name, value, low, high, unit FROM estimate" + OF_RUN)) {
      return sql.with(id)
          .all(
              row ->
                  new NamedEstimate(
                      row.text("name"),
                      new Estimate(
                          row.real("value"), new Interval(row.real("low"), row.real("high"))),
                      row.text("unit")));
    }
  }

  private List<Sighting> sightings(long id) throws SQLException {
    try (Sql sql = new Sql(connection, "SELECT * FROM sighting WHERE run_id = ? ORDER BY id")) {
      return sql.with(id)
          .all(
              row ->
                  new Sighting(
                      row.instant("seen_at"),
                      row.maybeText("seen_by"),
                      row.word("kind", Sighting.Kind.class),
                      row.text("subject"),
                      row.text("seen"),
                      row.maybeReal("tone_hz"),
                      row.text("words")));
    }
  }

  List<Overruling> overrulings(long id) throws SQLException {
    try (Sql sql = new Sql(connection, "SELECT * FROM overruling WHERE run_id = ? ORDER BY id")) {
      return sql.with(id)
          .all(
              row ->
                  new Overruling(
                      row.instant("ruled_at"),
                      row.text("ruled_by"),
                      row.word("decision", Decision.class),
                      row.text("reason")));
    }
  }

  private List<Judgement> judgements(long id) throws SQLException {
    List<Judgement> judgements = new ArrayList<>();
    try (Sql sql =
        new Sql(
            connection,
            "SELECT g.*, l.version, p.format, p.text FROM judgement g"
                + " JOIN limits l ON l.id = g.limits_id JOIN plan p ON p.hash = l.plan_hash"
                + " WHERE g.run_id = ? ORDER BY g.number")) {
      judgements.addAll(sql.with(id).all(this::judgement));
    }
    return judgements;
  }

  private Judgement judgement(Sql.Row row) throws SQLException {
    String json = row.text("details");
    Documents.Details details = whole(() -> Documents.details(json));
    Decision decision = row.word("decision", Decision.class);
    String headline = row.text("headline");
    Optional<String> action = row.maybeText("action");
    List<Check> checks = checks(row.number("id"));
    return new Judgement(
        row.count("number"),
        row.count("version"),
        new PlanText(row.text("format"), row.text("text")),
        row.instant("judged_at"),
        row.text("software"),
        whole(
            () ->
                new Verdict(
                    decision,
                    headline,
                    action,
                    checks,
                    details.suspects(),
                    details.notShown(),
                    details.bench(),
                    details.tests())));
  }

  private List<Check> checks(long judgement) throws SQLException {
    try (Sql sql =
        new Sql(connection, "SELECT * FROM check_result WHERE judgement_id = ? ORDER BY place")) {
      return sql.with(judgement).all(RunReader::check);
    }
  }

  private static Check check(Sql.Row row) throws SQLException {
    Outcome<Check.Reading> reading =
        row.maybeReal("value").isPresent()
            ? Outcome.found(
                new Check.Reading(
                    row.real("value"),
                    new Interval(row.real("low"), row.real("high")),
                    row.text("unit")))
            : Outcome.none(row.maybeText("because").orElse("none was kept"));
    Optional<Interval> limits =
        row.maybeReal("limit_low").isPresent()
            ? Optional.of(new Interval(row.real("limit_low"), row.real("limit_high")))
            : Optional.empty();
    return new Check(
        row.text("check_id"),
        row.text("title"),
        row.word("decision", Decision.class),
        reading,
        limits,
        row.text("reason"),
        row.maybeText("next_step"));
  }
}
