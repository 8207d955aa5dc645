package conewise.station.records.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.SampleRuns;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Comparator;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SqliteRecordsTest extends RecordStoreContract {
  @TempDir static Path shelf;
  @TempDir Path folder;

  @BeforeAll
  static void layOut() throws RecordsException {
    RecordStore.open(RecordPlace.of(laidOut().toString())).close();
  }

  private static Path laidOut() {
    return shelf.resolve("deep").resolve("records.db");
  }

  @Override
  RecordPlace emptyPlace() throws IOException {
    Path file = folder.resolve("records.db");
    if (Files.notExists(file)) {
      Files.copy(laidOut(), file);
    }
    return RecordPlace.of(file.toString());
  }

  @Override
  Connection pastTheStore(RecordPlace place) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + place.shown());
  }

  @Test
  void theNewestLayoutIsThatOfTheNewestFile() throws Exception {
    Path tables =
        Path.of(RecordStore.class.getResource("/conewise/records/tables/V1__tables.sql").toURI());
    try (var files = Files.list(tables.getParent())) {
      assertEquals(
          Layout.NEWEST,
          files
              .map(file -> file.getFileName().toString().replaceAll("V([0-9]+)__.*", "$1"))
              .max(Comparator.comparingInt(Integer::parseInt))
              .orElseThrow());
    }
  }

  @Test
  void replacingIsRefusedAsChangingIs() throws Exception {
    try (RecordStore store = RecordStore.open(emptyPlace());
        Connection connection = pastTheStore(emptyPlace());
        Statement statement = connection.createStatement()) {
      store.append(SampleRuns.passed("one", "7", SampleRuns.MORNING));
      for (String table :
          new String[] {"plan", "job", "limits", "run", "run_detail", "capture", "judgement"}) {
        String line = "INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table;
        SQLException refused =
            assertThrows(SQLException.class, () -> statement.executeUpdate(line), line);
        assertTrue(refused.getMessage().contains("may be replaced"), refused.getMessage());
      }
      assertEquals(1, store.list(RunFilter.ALL).size());
    }
  }

  @Test
  void whatIsNoRecordsFileIsSaidInOneSentence() throws Exception {
    Path text = Files.writeString(folder.resolve("notes.txt"), "no database ".repeat(200));
    assertSentence("is no records file", text);
    Path other = folder.resolve("other.db");
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + other);
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE recipes (name TEXT)");
    }
    assertSentence("something else than records", other);
    assertSentence("folder", text.resolve("records.db"));
    Path none = folder.resolve("none.db");
    RecordsException missing =
        assertThrows(
            RecordsException.class,
            () -> RecordStore.openExisting(RecordPlace.of(none.toString())));
    assertTrue(missing.getMessage().contains("There are no records at"), missing.getMessage());
    assertTrue(Files.notExists(none), "looking for records makes none");
  }

  @Test
  void recordsOfANewerVersionAreRefused() throws Exception {
    RecordPlace place = emptyPlace();
    RecordStore.open(place).close();
    try (Connection connection = pastTheStore(place);
        Statement statement = connection.createStatement()) {
      statement.execute(
          "INSERT INTO flyway_schema_history SELECT 99, '99', 'later', type, 'V99__later.sql',"
              + " checksum, installed_by, installed_on, 1, 1 FROM flyway_schema_history"
              + " WHERE version = '1'");
    }
    RecordsException newer = assertThrows(RecordsException.class, () -> RecordStore.open(place));
    assertTrue(newer.getMessage().contains("newer Conewise"), newer.getMessage());
  }

  private static void assertSentence(String part, Path file) {
    RecordsException bad =
        assertThrows(
            RecordsException.class, () -> RecordStore.open(RecordPlace.of(file.toString())));
    assertTrue(bad.getMessage().contains(part), bad.getMessage());
    assertTrue(!bad.getMessage().contains("Exception"), bad.getMessage());
  }
}
