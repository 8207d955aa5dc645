package conewise.station.keeping;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RunShelfTest {
  @TempDir Path folder;

  @Test
  void attemptsAreCountedFromWhatIsKept() throws Exception {
    assertEquals(1, new RunShelf(folder).next("C-1").attempt());
    assertEquals(2, new RunShelf(folder).next("C-1").attempt());
    assertEquals(1, new RunShelf(folder).next("C-2").attempt());
    Files.createDirectory(folder.resolve("C-1").resolve("attempt-041"));
    assertEquals(42, new RunShelf(folder).next("C-1").attempt());
  }

  @Test
  void twoBenchesNeverGetTheSameAttempt() throws Exception {
    ExecutorService benches = Executors.newFixedThreadPool(4);
    try {
      Callable<Integer> run = () -> new RunShelf(folder).next("C-1").attempt();
      List<Future<Integer>> runs =
          benches.invokeAll(IntStream.range(0, 40).mapToObj(i -> run).toList());
      Set<Integer> attempts =
          runs.stream()
              .map(
                  future -> {
                    try {
                      return future.get();
                    } catch (Exception e) {
                      throw new AssertionError(e);
                    }
                  })
              .collect(Collectors.toSet());
      assertEquals(IntStream.rangeClosed(1, 40).boxed().collect(Collectors.toSet()), attempts);
    } finally {
      benches.shutdownNow();
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"..", "../../etc", "/etc/passwd", "a/b", "a\\b", "C:", "<b>", "ü", "."})
  void noSerialLeadsOutOfTheShelf(String serial) throws Exception {
    Path run = new RunShelf(folder).next(serial).path();
    assertEquals(folder.toRealPath(), run.toRealPath().getParent().getParent());
  }

  @Test
  void differentSerialsHaveDifferentFolders() {
    assertNotEquals(RunShelf.folderName("a/b"), RunShelf.folderName("a%2Fb"));
    assertEquals("a%2Fb", RunShelf.folderName("a/b"));
  }

  @Test
  void aBlankOrLongSerialIsRefusedWithItsLimit() {
    for (String serial : List.of("", "  ", "x".repeat(65))) {
      IllegalArgumentException refused =
          assertThrows(IllegalArgumentException.class, () -> RunShelf.folderName(serial));
      assertTrue(refused.getMessage().contains("1 to 64"), refused.getMessage());
    }
  }

  @Test
  void aFileIsWrittenWholeAndNeverTwice() throws Exception {
    RunFolder run = new RunShelf(folder).next("C-1");
    run.write("verdict.json", "{}");
    assertEquals("{}", Files.readString(run.path().resolve("verdict.json")));
    assertFalse(Files.exists(run.path().resolve("verdict.json.part")));
  }
}
