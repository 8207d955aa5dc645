package conewise.station.records.store;

import conewise.station.records.RecordsException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Map;
import javax.sql.DataSource;

/** What differs between the two databases. */
interface Engine {
  /** Connections for reading. */
  DataSource forReading();

  /** Connections whose transactions write. */
  DataSource forWriting();

  /** The folder of its own migrations. */
  String migrations();

  /** The types that the common tables are written with. */
  Map<String, String> types();

  /** Makes a connection ready that was just opened. */
  void ready(Connection connection) throws SQLException;

  /** Lets nobody else count the attempts of the same box until this transaction ends. */
  void holdBox(Connection connection, String job, String serial) throws SQLException;

  /** True when another writer was in the way and the same may be tried again. */
  boolean passing(SQLException problem);

  /** The sentence for people. */
  RecordsException trouble(RecordsException.Kind kind, SQLException problem);
}
