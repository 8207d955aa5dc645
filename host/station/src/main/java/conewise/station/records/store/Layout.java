package conewise.station.records.store;

import conewise.station.records.RecordsException;
import conewise.station.records.RecordsException.Kind;
import java.sql.Connection;
import java.sql.SQLException;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.configuration.FluentConfiguration;
import org.flywaydb.core.api.exception.FlywayValidateException;

/** Lays out the tables, or brings those of an earlier version up to date. */
final class Layout {
  /** The version of the newest file in the folders of tables. */
  static final String NEWEST = "4";

  private static final String FOLDER = "classpath:conewise/records/";

  private Layout() {}

  /** Does so where it is needed; safe when several stations do it at once. */
  static void bringUpToDate(Engine engine, RecordPlace place) throws RecordsException {
    if (isUpToDate(engine)) {
      return;
    }
    FluentConfiguration configuration =
        Flyway.configure(Layout.class.getClassLoader())
            .dataSource(engine.forWriting())
            .locations(FOLDER + "tables", FOLDER + engine.migrations())
            .placeholders(engine.types())
            .ignoreMigrationPatterns(new String[0])
            .failOnMissingLocations(true)
            .loggers(SilentLog.class.getName());
    if (place instanceof RecordPlace.OfServer) {
      configuration.schemas(PostgresEngine.SCHEMA);
    }
    try {
      configuration.load().migrate();
    } catch (FlywayValidateException other) {
      throw new RecordsException(
          Kind.NOT_READ,
          place.shown()
              + " was laid out by a newer Conewise, or by none; use the version that wrote it.",
          other);
    } catch (FlywayException problem) {
      throw trouble(engine, place, problem);
    }
  }

  /** Asked first, since it is so nearly always, and the answer costs next to nothing. */
  private static boolean isUpToDate(Engine engine) {
    try (Connection connection = engine.forReading().getConnection()) {
      engine.ready(connection);
      try (Sql sql =
          new Sql(
              connection,
              "SELECT version FROM flyway_schema_history WHERE success"
                  + " ORDER BY installed_rank DESC LIMIT 1")) {
        return sql.first(row -> row.text("version")).filter(NEWEST::equals).isPresent();
      }
    } catch (SQLException notLaidOut) {
      // Whatever is there instead, laying it out will say.
      return false;
    }
  }

  private static RecordsException trouble(
      Engine engine, RecordPlace place, FlywayException problem) {
    for (Throwable cause = problem; cause != null; cause = cause.getCause()) {
      if (cause instanceof SQLException sql) {
        return engine.trouble(Kind.NOT_WRITTEN, sql);
      }
    }
    return new RecordsException(
        Kind.NOT_READ,
        place.shown() + " holds something else than records; name another place.",
        problem);
  }
}
