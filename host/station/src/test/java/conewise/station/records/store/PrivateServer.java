package conewise.station.records.store;

import conewise.station.records.RecordsException;
import java.io.File;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/**
 * A real PostgreSQL server of the tests' own, in a temporary folder, on this machine alone. One
 * serves all tests of a run; it ends with the run. It flushes nothing to the disk, since no test
 * cuts its power.
 */
final class PrivateServer {
  private static final int PATIENCE_SECONDS = 60;
  private static final AtomicInteger DATABASES = new AtomicInteger();
  private static PrivateServer running;

  private String laidOut;
  private final Path programs;
  private final Path folder;
  private final int port;

  private PrivateServer(Path programs) throws IOException, InterruptedException {
    this.programs = programs;
    this.folder = Files.createTempDirectory("conewise-server-");
    try (ServerSocket free = new ServerSocket(0)) {
      this.port = free.getLocalPort();
    }
    if (isRoot()) {
      run(List.of("chown", "postgres", folder.toString()));
    }
    Runtime.getRuntime().addShutdownHook(new Thread(this::stop));
    run(asServer("initdb", "-D", data(), "-A", "trust", "-U", "tester", "-E", "UTF8", "--no-sync"));
    String options = "-p " + port + " -c listen_addresses=127.0.0.1 -c fsync=off -k " + folder;
    run(asServer("pg_ctl", "-D", data(), "-w", "-l", folder + "/log", "-o", options, "start"));
  }

  /** The server; skips the test where PostgreSQL is not installed, unless CI is true. */
  static synchronized PrivateServer running() throws IOException, InterruptedException {
    if (running == null) {
      Path programs = programs();
      boolean there = programs != null;
      if (!"true".equals(System.getenv("CI"))) {
        Assumptions.assumeTrue(there, "PostgreSQL is not installed");
      } else if (!there) {
        throw new AssertionError("PostgreSQL is not installed, and with CI=true it must be");
      }
      running = new PrivateServer(programs);
    }
    return running;
  }

  /** A new database without anything. */
  RecordPlace newDatabase() throws SQLException {
    return newDatabase("template1");
  }

  /** A new database with records laid out, as a copy of one in which they were. */
  synchronized RecordPlace newRecords() throws SQLException, RecordsException {
    if (laidOut == null) {
      RecordPlace place = newDatabase();
      RecordStore.open(place).close();
      laidOut = nameOf(DATABASES.get());
    }
    return newDatabase(laidOut);
  }

  private synchronized RecordPlace newDatabase(String like) throws SQLException {
    String name = nameOf(DATABASES.incrementAndGet());
    try (Connection connection = DriverManager.getConnection(url("postgres"));
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE DATABASE " + name + " TEMPLATE " + like);
    }
    return RecordPlace.of(url(name));
  }

  private static String nameOf(int number) {
    return "records_" + number;
  }

  private String url(String database) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + database + "?user=tester";
  }

  private String data() {
    return folder.resolve("data").toString();
  }

  private static Path programs() throws IOException {
    Path versions = Path.of("/usr/lib/postgresql");
    if (!Files.isDirectory(versions)) {
      return null;
    }
    try (Stream<Path> all = Files.list(versions)) {
      return all.map(each -> each.resolve("bin"))
          .filter(each -> Files.isExecutable(each.resolve("initdb")))
          .max(Comparator.naturalOrder())
          .orElse(null);
    }
  }

  /** A server refuses to run as root. */
  private static boolean isRoot() {
    return System.getProperty("user.name").equals("root");
  }

  private List<String> asServer(String program, String... words) {
    List<String> line = new ArrayList<>();
    if (isRoot()) {
      line.addAll(List.of("runuser", "-u", "postgres", "--"));
    }
    line.add(programs.resolve(program).toString());
    line.addAll(List.of(words));
    return line;
  }

  private void run(List<String> line) throws IOException, InterruptedException {
    Path said = Files.createTempFile("conewise-said-", ".txt");
    Process process =
        new ProcessBuilder(line)
            .directory(new File("/"))
            .redirectErrorStream(true)
            .redirectOutput(said.toFile())
            .start();
    boolean ended = process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS);
    String words = Files.readString(said);
    Files.delete(said);
    if (!ended || process.exitValue() != 0) {
      process.destroyForcibly();
      throw new AssertionError(String.join(" ", line) + " failed: " + words);
    }
  }

  private void stop() {
    try {
      run(asServer("pg_ctl", "-D", data(), "-m", "immediate", "stop"));
      try (Stream<Path> files = Files.walk(folder)) {
        files.sorted(Comparator.reverseOrder()).map(Path::toFile).forEach(File::delete);
      }
    } catch (IOException | InterruptedException | AssertionError gone) {
      System.err.println("the tests' own server in " + folder + ": " + gone.getMessage());
    }
  }
}
