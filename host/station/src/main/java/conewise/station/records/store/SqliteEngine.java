package conewise.station.records.store;

import conewise.station.records.RecordsException;
import conewise.station.records.RecordsException.Kind;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Map;
import javax.sql.DataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConfig.JournalMode;
import org.sqlite.SQLiteConfig.SynchronousMode;
import org.sqlite.SQLiteConfig.TransactionMode;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;

/**
 * One file of this machine. Write-ahead log, so that reading never holds up the bench; synchronous
 * FULL, since only then the log is flushed to the disk at each commit (with NORMAL, a power cut may
 * undo what was acknowledged; sqlite.org, "PRAGMA synchronous").
 */
class SqliteEngine implements Engine {
  /** How long to wait for another process that writes. */
  private static final int PATIENCE_MILLIS = 10_000;

  private static final int PRIMARY_CODE = 0xFF;

  private final Path file;

  SqliteEngine(Path file) {
    this.file = file;
  }

  @Override
  public DataSource forReading() {
    return source(TransactionMode.DEFERRED);
  }

  @Override
  public DataSource forWriting() {
    return source(TransactionMode.IMMEDIATE);
  }

  private DataSource source(TransactionMode transactions) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(JournalMode.WAL);
    config.setSynchronous(SynchronousMode.FULL);
    config.setBusyTimeout(PATIENCE_MILLIS);
    config.enforceForeignKeys(true);
    config.enableRecursiveTriggers(true);
    config.setTransactionMode(transactions);
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file);
    return source;
  }

  @Override
  public String migrations() {
    return "sqlite";
  }

  @Override
  public Map<String, String> types() {
    return Map.of("id", "INTEGER PRIMARY KEY AUTOINCREMENT", "real", "REAL", "bytes", "BLOB");
  }

  @Override
  public void ready(Connection connection) throws SQLException {
    // All is in the configuration.
  }

  /** A writing transaction holds the whole file from its beginning. */
  @Override
  public void holdBox(Connection connection, String job, String serial) {}

  @Override
  public boolean passing(SQLException problem) {
    return false;
  }

  @Override
  public RecordsException trouble(Kind kind, SQLException problem) {
    return new RecordsException(kind, sentence(code(problem), problem), problem);
  }

  private static SQLiteErrorCode code(SQLException problem) {
    return SQLiteErrorCode.getErrorCode(problem.getErrorCode() & PRIMARY_CODE);
  }

  private String sentence(SQLiteErrorCode code, SQLException problem) {
    return switch (code) {
      case SQLITE_FULL ->
          "The disk is full, or the records have reached their largest size: nothing more could be"
              + " kept in "
              + file
              + "; what was kept before is there. Make room and run the box again.";
      case SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_PERM ->
          file + " cannot be opened for writing; check its folder and this user's rights.";
      case SQLITE_BUSY, SQLITE_LOCKED ->
          "Another program has held "
              + file
              + " for "
              + PATIENCE_MILLIS / 1000
              + " s; let it finish and try again.";
      case SQLITE_NOTADB ->
          file + " is no records file; name another one, or move it away and begin anew.";
      case SQLITE_CORRUPT -> file + " is damaged; keep it as it is and go back to its last copy.";
      default -> "The records in " + file + " could not be used: " + problem.getMessage() + ".";
    };
  }
}
