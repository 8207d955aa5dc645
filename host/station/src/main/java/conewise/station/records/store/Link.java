package conewise.station.records.store;

import conewise.station.records.RecordsException;
import conewise.station.records.RecordsException.Kind;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import javax.sql.DataSource;

/**
 * One connection, opened when it is needed and again after it was lost. Work on it is done by one
 * thread at a time, each piece in a transaction of its own.
 */
final class Link implements AutoCloseable {
  /** Other writers may be in the way so many times in a row. */
  private static final int TRIES = 8;

  private static final int ALIVE_SECONDS = 3;

  /** What is done within a transaction. */
  @FunctionalInterface
  interface Work<T> {
    T on(Connection connection) throws SQLException, RecordsException;
  }

  private final Engine engine;
  private final DataSource source;
  private final Kind kind;
  private Optional<Connection> open = Optional.empty();

  Link(Engine engine, DataSource source, Kind kind) {
    this.engine = engine;
    this.source = source;
    this.kind = kind;
  }

  /** Does the work, whole or not at all; when this returns it is on the disk. */
  synchronized <T> T run(Work<T> work) throws RecordsException {
    for (int attempt = 1; ; attempt++) {
      try {
        return once(work);
      } catch (SQLException problem) {
        if (attempt == TRIES || !engine.passing(problem)) {
          throw engine.trouble(kind, problem);
        }
      }
    }
  }

  /**
   * Ending a transaction by asking for automatic commits again is the one way that begins no
   * further one: in SQLite that would keep every other process from writing. Where the work or its
   * commit fails, the connection is given up, which undoes what was begun.
   */
  private <T> T once(Work<T> work) throws SQLException, RecordsException {
    Connection connection = alive();
    boolean done = false;
    try {
      connection.setAutoCommit(false);
      T result = work.on(connection);
      connection.setAutoCommit(true);
      done = true;
      return result;
    } finally {
      if (!done) {
        drop();
      }
    }
  }

  private Connection alive() throws SQLException {
    if (open.isPresent() && !open.get().isValid(ALIVE_SECONDS)) {
      drop();
    }
    if (open.isEmpty()) {
      Connection connection = source.getConnection();
      engine.ready(connection);
      open = Optional.of(connection);
    }
    return open.get();
  }

  private void drop() {
    try {
      if (open.isPresent()) {
        open.get().close();
      }
    } catch (SQLException alreadyGone) {
      // There is nothing left to close.
    } finally {
      open = Optional.empty();
    }
  }

  @Override
  public synchronized void close() {
    drop();
  }
}
