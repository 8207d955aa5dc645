package conewise.station.records.store;

import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Adds a judgement to a run; the ones before it stay as they are. */
final class JudgementWriter {
  private final Connection connection;

  JudgementWriter(Connection connection) {
    this.connection = connection;
  }

  /** Adds it and answers its number within the run, from 1. */
  int add(long run, long limits, Instant at, String software, Verdict verdict) throws SQLException {
    int number = next(run);
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO judgement (run_id, number, limits_id, judged_at, software, decision,"
                + " headline, action, fault, details) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
                + " RETURNING id")) {
      long id =
          sql.with(
                  run,
                  number,
                  limits,
                  at,
                  software,
                  verdict.decision(),
                  verdict.headline(),
                  verdict.action(),
                  fault(verdict),
                  Documents.of(
                      new Documents.Details(
                          verdict.suspects(),
                          verdict.notShown(),
                          verdict.bench(),
                          verdict.tests())))
              .addNumbered();
      addChecks(id, verdict.checks());
    }
    return number;
  }

  private int next(long run) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "SELECT COALESCE(MAX(number), 0) + 1 AS next FROM judgement WHERE run_id = ?")) {
      return sql.with(run).first(row -> row.count("next")).orElseThrow();
    }
  }

  /**
   * What most probably is wrong, in words: what cannot be told apart stands together. Where nothing
   * is suspected, the first check that failed.
   */
  static Optional<String> fault(Verdict verdict) {
    if (verdict.decision() == Decision.PASS || verdict.decision() == Decision.NOT_JUDGED) {
      return Optional.empty();
    }
    return verdict.suspects().stream()
        .findFirst()
        .map(suspect -> String.join(" or ", suspect.faults()))
        .or(
            () ->
                verdict.checks().stream()
                    .filter(check -> check.decision() == Decision.FAIL)
                    .findFirst()
                    .map(check -> check.title() + " outside its limits"));
  }

  private void addChecks(long judgement, List<Check> checks) throws SQLException {
    try (Sql sql =
        new Sql(
            connection,
            "INSERT INTO check_result (judgement_id, place, check_id, title, decision, value, low,"
                + " high, unit, because, limit_low, limit_high, reason, next_step)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
      for (int i = 0; i < checks.size(); i++) {
        Check check = checks.get(i);
        Optional<Check.Reading> reading =
            check.reading() instanceof Outcome.Found<Check.Reading> found
                ? Optional.of(found.value())
                : Optional.empty();
        sql.with(
                judgement,
                i + 1,
                check.id(),
                check.title(),
                check.decision(),
                real(reading.map(Check.Reading::value)),
                real(reading.map(each -> each.interval().low())),
                real(reading.map(each -> each.interval().high())),
                reading.map(Check.Reading::unit),
                check.reading() instanceof Outcome.NoResult<Check.Reading> none
                    ? Optional.of(none.because())
                    : Optional.empty(),
                real(check.limits().map(Interval::low)),
                real(check.limits().map(Interval::high)),
                check.reason(),
                check.nextStep())
            .add();
      }
    }
  }

  private static OptionalDouble real(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }
}
