package conewise.station.records.store;

import conewise.station.records.RecordsException;
import conewise.station.records.RecordsException.Kind;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;
import java.util.Set;
import javax.sql.DataSource;
import org.postgresql.ds.PGSimpleDataSource;

/** A server that several benches share. The tables stand in a schema of their own. */
final class PostgresEngine implements Engine {
  static final String SCHEMA = "conewise";

  private static final int CONNECT_SECONDS = 10;
  private static final int ANSWER_SECONDS = 60;

  /** Unique violation, serialization failure, deadlock (PostgreSQL manual, appendix A). */
  private static final Set<String> PASSING = Set.of("23505", "40001", "40P01");

  private final RecordPlace.OfServer place;

  PostgresEngine(RecordPlace.OfServer place) {
    this.place = place;
  }

  @Override
  public DataSource forReading() {
    return source();
  }

  @Override
  public DataSource forWriting() {
    return source();
  }

  private DataSource source() {
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setConnectTimeout(CONNECT_SECONDS);
    source.setLoginTimeout(CONNECT_SECONDS);
    source.setSocketTimeout(ANSWER_SECONDS);
    source.setTcpKeepAlive(true);
    source.setApplicationName("Conewise");
    source.setURL(place.url());
    return source;
  }

  @Override
  public String migrations() {
    return "postgresql";
  }

  @Override
  public Map<String, String> types() {
    return Map.of(
        "id", "BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY",
        "real", "DOUBLE PRECISION",
        "bytes", "BYTEA");
  }

  @Override
  public void ready(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("SET search_path TO " + SCHEMA);
      statement.execute("SET lock_timeout TO '10s'");
      // A server may be set to answer a commit before it is on its disk; the records may not be.
      statement.execute("SET synchronous_commit TO on");
    }
  }

  @Override
  public void holdBox(Connection connection, String job, String serial) throws SQLException {
    try (PreparedStatement lock =
        connection.prepareStatement("SELECT pg_advisory_xact_lock(hashtextextended(?, 0))")) {
      lock.setString(1, "conewise " + job + "\n" + serial);
      lock.execute();
    }
  }

  @Override
  public boolean passing(SQLException problem) {
    return PASSING.contains(state(problem));
  }

  private static String state(SQLException problem) {
    return problem.getSQLState() == null ? "" : problem.getSQLState();
  }

  @Override
  public RecordsException trouble(Kind kind, SQLException problem) {
    return new RecordsException(kind, sentence(state(problem), problem), problem);
  }

  private String sentence(String state, SQLException problem) {
    String where = place.shown();
    if (state.startsWith("08") || state.startsWith("57P")) {
      return "The records' server "
          + where
          + " does not answer; check that it runs and the network.";
    }
    if (state.startsWith("53")) {
      return "The records' server "
          + where
          + " has no room left: nothing more could be kept; what was kept before is there.";
    }
    return switch (state) {
      case "28000", "28P01" -> where + " refuses this user or password; check both.";
      case "3D000" -> where + " has no such database; have it made first (createdb).";
      case "42501" ->
          where + " does not give this user the rights that records need; see docs/records.md.";
      case "55P03" -> "Another station has held the records on " + where + " for 10 s; try again.";
      default ->
          "The records on "
              + where
              + " could not be used: "
              + String.valueOf(problem.getMessage()).replace('\n', ' ')
              + ".";
    };
  }
}
