package conewise.station.records.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.records.RecordsException;
import conewise.station.records.SampleRuns;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.Test;

class PostgresRecordsTest extends RecordStoreContract {

  @Override
  RecordPlace emptyPlace() throws Exception {
    return PrivateServer.running().newRecords();
  }

  @Override
  Connection pastTheStore(RecordPlace place) throws SQLException {
    String url = ((RecordPlace.OfServer) place).url();
    return DriverManager.getConnection(url + "&currentSchema=" + PostgresEngine.SCHEMA);
  }

  @Test
  void emptyingATableIsRefused() throws Exception {
    RecordPlace place = emptyPlace();
    try (RecordStore store = RecordStore.open(place);
        Connection connection = pastTheStore(place);
        Statement statement = connection.createStatement()) {
      store.append(SampleRuns.passed("one", "7", SampleRuns.MORNING));
      SQLException refused =
          assertThrows(SQLException.class, () -> statement.execute("TRUNCATE run CASCADE"));
      assertTrue(refused.getMessage().contains("only ever added to"), refused.getMessage());
    }
  }

  @Test
  void aLostConnectionIsMadeAnewForTheNextRun() throws Exception {
    RecordPlace place = emptyPlace();
    try (RecordStore store = RecordStore.open(place);
        Connection connection = pastTheStore(place);
        Statement statement = connection.createStatement()) {
      store.append(SampleRuns.passed("one", "7", SampleRuns.MORNING));
      statement.execute(
          "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
              + " WHERE pid <> pg_backend_pid() AND datname = current_database()");
      assertEquals(2, store.append(SampleRuns.passed("one", "7", SampleRuns.MORNING)).attempt());
    }
  }

  @Test
  void aServerThatCannotBeReachedOrHasNoSuchDatabaseIsSaidInOneSentence() throws Exception {
    RecordPlace there = emptyPlace();
    String url = ((RecordPlace.OfServer) there).url();
    assertSentence("does not answer", "jdbc:postgresql://127.0.0.1:1/records?password=secret");
    assertSentence("no such database", url.replaceAll("records_[0-9]+", "nothing"));
  }

  private static void assertSentence(String part, String url) {
    RecordsException bad =
        assertThrows(RecordsException.class, () -> RecordStore.open(RecordPlace.of(url)));
    assertTrue(bad.getMessage().contains(part), bad.getMessage());
    assertTrue(!bad.getMessage().contains("secret"), bad.getMessage());
  }
}
