package conewise.station.documents;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every command of the pages is run as it stands, or says why not; every block that is marked as
 * printed by the program is what the program prints. {@code -Dpages=write} writes what is stale
 * anew.
 */
class DocumentCommandsTest {
  private static final Path ROOT = Path.of("../..").toAbsolutePath().normalize();

  private static final List<String> LINKED =
      List.of("docs", "hardware-notes", "host", "firmware-sim");

  @TempDir Path folder;

  @Test
  void everyCommandOfThePagesIsRunAndEndsAsThePageSays() throws Exception {
    List<String> pages = pages();
    assertTrue(pages.contains("README.md") && pages.contains("docs/driver.md"), pages.toString());
    String asked = System.getProperty("pages.only", "");
    List<String> chosen = pages.stream().filter(each -> each.matches(".*" + asked + ".*")).toList();
    assertEquals(List.of(), mistakes(ROOT, chosen));
  }

  private static List<String> pages() throws IOException {
    List<String> pages = new ArrayList<>();
    try (Stream<Path> root = Files.list(ROOT);
        Stream<Path> docs = Files.walk(ROOT.resolve("docs"));
        Stream<Path> hardware = Files.walk(ROOT.resolve("hardware-notes"));
        Stream<Path> firmware = Files.walk(ROOT.resolve("firmware-sim"))) {
      Stream.of(root, docs, hardware, firmware)
          .flatMap(each -> each)
          .map(each -> ROOT.relativize(each).toString().replace('\\', '/'))
          .filter(each -> each.endsWith(".md") && !each.matches(".*/(target|build)/.*"))
          .sorted()
          .forEach(pages::add);
    }
    return pages;
  }

  /** Runs pages of a repository in a reader's folder, in a process of its own. */
  private List<String> mistakes(Path repository, List<String> pages) throws Exception {
    Path reader = Files.createDirectories(folder.resolve("reader"));
    for (String linked : LINKED) {
      if (Files.exists(repository.resolve(linked))) {
        Files.createSymbolicLink(reader.resolve(linked), repository.resolve(linked));
      }
    }
    try {
      return mistakes(reader, repository, pages);
    } finally {
      for (String linked : LINKED) {
        Files.deleteIfExists(reader.resolve(linked));
      }
    }
  }

  private List<String> mistakes(Path reader, Path repository, List<String> pages) throws Exception {
    List<String> line =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                // Short commands are over before the second compiler pays.
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                RunPages.class.getName(),
                repository.toString(),
                System.getProperty("pages", "hold")));
    line.addAll(pages);
    ProcessBuilder builder =
        new ProcessBuilder(line).directory(reader.toFile()).redirectErrorStream(true);
    builder.environment().put("CONEWISE_CALIBRATIONS", reader.resolve("calibrations").toString());
    builder.environment().remove("CONEWISE_RECORDS");
    Path log = folder.resolve("log.txt");
    Process process = builder.redirectOutput(log.toFile()).start();
    process.getOutputStream().close();
    boolean ended = process.waitFor(10, TimeUnit.MINUTES);
    process.destroyForcibly();
    System.out.println(Files.readString(log));
    assertTrue(ended, "the pages are not through after ten minutes");
    return Files.readAllLines(reader.resolve("mistakes.txt"));
  }

  private List<String> mistakesOf(String page) throws Exception {
    Path repository = Files.createDirectories(folder.resolve("repository/host/station/src/test"));
    Files.createDirectories(repository.resolve("java"));
    Path root = folder.resolve("repository");
    Files.writeString(root.resolve("page.md"), page);
    return mistakes(root, List.of("page.md"));
  }

  /** A check that cannot fail would hold nothing. */
  @Test
  void aPageThatDoesNotHoldIsTold() throws Exception {
    String page =
        """
        ```
        ./conewise judge none.csv --plan heron
        ```
        <!-- exit: 65 -->
        ```
        ./conewise judge none.csv --plan heron
        ```
        ```
        make everything
        ```
        <!-- not run: it is a slip -->
        ```
        ./conewise judge a.csv --pla heron
        ```
        Also `./conewise jugde a.csv` and `./conewise judge a.csv`.
        <!-- printed by: ./conewise work-out delay --distance 1m --frequency 80Hz -->
        ```text
        something else
        ```
        <!-- run by: NoSuchTest -->
        ```
        ./conewise demo
        ```
        """;
    String told = String.join("\n", mistakesOf(page));
    assertTrue(
        told.contains("page.md: ./conewise judge none.csv --plan heron: ended with 65, not 0"),
        told);
    assertTrue(told.contains("make everything: is neither run nor marked"), told);
    assertTrue(told.contains("--pla heron: Unknown option"), told);
    assertTrue(told.contains("./conewise jugde a.csv: Unmatched"), told);
    assertTrue(told.contains("is stale"), told);
    assertTrue(told.contains("there is no test NoSuchTest"), told);
    assertEquals(1, told.split("ended with 65", -1).length - 1, told);
  }
}
