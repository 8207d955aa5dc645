package conewise.station.records.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.records.BoxRun;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.SampleRuns;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What was acknowledged is there after a kill, a full disk and a torn write. */
class CrashTest {
  private static final int KILLS = 3;
  private static final int TORN = 12;

  @TempDir Path folder;

  @Test
  @Timeout(120)
  void everyRunThatWasAcknowledgedIsThereWholeAfterTheProcessWasKilledAtAnyInstant()
      throws Exception {
    long seed = System.nanoTime();
    System.out.println("kills by seed " + seed);
    Random random = new Random(seed);
    Path file = folder.resolve("records.db");
    Map<Long, String> acknowledged = new LinkedHashMap<>();
    for (int i = 0; i < KILLS; i++) {
      acknowledged.putAll(appendUntilKilled(file, random));
      try (RecordStore store = RecordStore.openExisting(RecordPlace.of(file.toString()))) {
        for (Map.Entry<Long, String> each : acknowledged.entrySet()) {
          KeptRun kept = store.run(each.getKey()).orElseThrow();
          assertEquals(each.getValue(), kept.run().token(), "seed " + seed);
          assertWhole(kept);
        }
        List<RunLine> all = store.list(RunFilter.ALL);
        assertTrue(all.size() <= acknowledged.size() + i + 1, "one a kill may be kept unanswered");
        assertEquals(all.size(), store.attempts("one", "7"), "attempts are counted without a gap");
      }
      assertSound(file);
    }
    assertTrue(acknowledged.size() > KILLS, "too few runs were kept to prove anything");
  }

  private static Map<Long, String> appendUntilKilled(Path file, Random random) throws Exception {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                AppendingChild.class.getName(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    Map<Long, String> acknowledged = new LinkedHashMap<>();
    try (BufferedReader said =
        new BufferedReader(new InputStreamReader(child.getInputStream(), StandardCharsets.UTF_8))) {
      int enough = 2 + random.nextInt(12);
      String line = said.readLine();
      assertEquals("open", line, "what the child said first");
      while (line != null && acknowledged.size() < enough) {
        add(acknowledged, line);
        line = said.readLine();
      }
      LockSupport.parkNanos(random.nextInt(30_000_000));
      // Process.destroyForcibly would close the pipe with what the child had said.
      child.toHandle().destroyForcibly();
      while (line != null) {
        add(acknowledged, line);
        line = said.readLine();
      }
    }
    assertTrue(child.waitFor(30, TimeUnit.SECONDS), "the killed process is still there");
    return acknowledged;
  }

  /** A line that was cut off by the kill acknowledges nothing. */
  private static void add(Map<Long, String> acknowledged, String line) {
    String[] words = line.split(" ", -1);
    if (words.length == 2 && words[1].length() == 36) {
      acknowledged.put(Long.parseLong(words[0]), words[1]);
    }
  }

  private static void assertWhole(KeptRun kept) {
    BoxRun like = SampleRuns.failed("one", "7", SampleRuns.MORNING);
    assertEquals(like.verdict(), kept.run().verdict());
    assertEquals(like.measurement(), kept.run().measurement());
    assertEquals(like.sightings(), kept.run().sightings());
    assertEquals(
        Arrays.hashCode(like.captures().get(0).voltageVolt().values()),
        Arrays.hashCode(kept.run().captures().get(0).voltageVolt().values()));
  }

  private static void assertSound(Path file) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet answer = statement.executeQuery("PRAGMA integrity_check")) {
      assertEquals("ok", answer.getString(1));
    }
  }

  @Test
  void aFullDiskIsSaidInOneSentenceAndLosesNothingThatWasAcknowledged() throws Exception {
    Path file = folder.resolve("records.db");
    RecordPlace place = RecordPlace.of(file.toString());
    int acknowledged = 0;
    RecordsException full = null;
    try (RecordStore store = RecordStore.laidOut(new SmallDisk(file), place)) {
      while (full == null && acknowledged < 1000) {
        try {
          store.append(SampleRuns.failed("one", "7", SampleRuns.MORNING));
          acknowledged++;
        } catch (RecordsException refused) {
          full = refused;
        }
      }
      assertEquals(acknowledged, store.list(RunFilter.ALL).size(), "reading goes on");
    }
    assertTrue(acknowledged > 2 && full != null, acknowledged + " runs fitted");
    assertTrue(full.getMessage().startsWith("The disk is full"), full.getMessage());
    assertEquals(RecordsException.Kind.NOT_WRITTEN, full.kind());
    try (RecordStore store = RecordStore.open(place)) {
      assertEquals(acknowledged, store.list(RunFilter.ALL).size());
      BoxRun next = SampleRuns.failed("one", "7", SampleRuns.MORNING);
      assertEquals(acknowledged + 1, store.append(next).attempt(), "with room it goes on");
    }
  }

  /** A disk on which the file can grow to 200 pages of 4096 bytes. */
  private static final class SmallDisk extends SqliteEngine {
    SmallDisk(Path file) {
      super(file);
    }

    @Override
    public void ready(Connection connection) throws SQLException {
      try (Statement statement = connection.createStatement()) {
        statement.execute("PRAGMA max_page_count = 200");
      }
    }
  }

  @Test
  void aTornTailOfTheLogIsLeftOutAndTheRunsBeforeItAreWhole() throws Exception {
    long seed = System.nanoTime();
    System.out.println("torn by seed " + seed);
    Random random = new Random(seed);
    int runs = 6;
    Path file = folder.resolve("records.db");
    int fewer = 0;
    try (RecordStore store = RecordStore.open(RecordPlace.of(file.toString()))) {
      for (int i = 0; i < runs; i++) {
        store.append(SampleRuns.failed("one", "7", SampleRuns.MORNING));
      }
      for (int i = 0; i < TORN; i++) {
        Path torn = torn(file, folder.resolve("torn-" + i), random);
        int left = wholeRuns(torn, "seed " + seed + ", case " + i);
        fewer += left < runs ? 1 : 0;
        assertTrue(left <= runs, left + " runs, seed " + seed);
      }
    }
    assertTrue(fewer > 0, "no case tore anything off, seed " + seed);
  }

  /** A copy as after a power cut: the log cut short, or garbage in its last third. */
  private static Path torn(Path file, Path into, Random random) throws IOException {
    Files.createDirectories(into);
    Path copy = into.resolve("records.db");
    Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
    byte[] log = Files.readAllBytes(Path.of(file + "-wal"));
    assertTrue(log.length > 100_000, "the log is " + log.length + " bytes: nothing to tear");
    int at = log.length * 2 / 3 + random.nextInt(log.length / 3);
    if (random.nextBoolean()) {
      log = Arrays.copyOf(log, at);
    } else {
      for (int i = at; i < Math.min(log.length, at + 4096); i++) {
        log[i] = (byte) random.nextInt();
      }
    }
    Files.write(Path.of(copy + "-wal"), log);
    return copy;
  }

  private static int wholeRuns(Path file, String which) throws Exception {
    try (RecordStore store = RecordStore.openExisting(RecordPlace.of(file.toString()))) {
      List<RunLine> left = store.list(RunFilter.ALL);
      for (RunLine line : left) {
        assertWhole(store.run(line.id()).orElseThrow());
      }
      assertEquals(left.size(), store.attempts("one", "7"), which);
      assertSound(file);
      return left.size();
    }
  }

  @Test
  void aDamagedRunIsSaidAndNeverShownAsIfItWereWhole() throws Exception {
    Path file = folder.resolve("records.db");
    RecordPlace place = RecordPlace.of(file.toString());
    long id;
    try (RecordStore store = RecordStore.open(place)) {
      id = store.append(SampleRuns.failed("one", "7", SampleRuns.MORNING)).id();
    }
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("DROP TRIGGER run_detail_is_never_changed");
      statement.execute(
          "UPDATE run_detail SET curve = CAST(substr(curve, 1, 400) || zeroblob(40) ||"
              + " substr(curve, 441) AS BLOB)");
    }
    try (RecordStore store = RecordStore.openExisting(place)) {
      RecordsException damaged = assertThrows(RecordsException.class, () -> store.run(id));
      assertTrue(
          damaged.getMessage().startsWith("Run " + id + " in the records is damaged"),
          damaged.getMessage());
    }
  }
}
