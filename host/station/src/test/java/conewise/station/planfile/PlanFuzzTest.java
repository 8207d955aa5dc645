package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.fail;

import conewise.station.files.BadFileException;
import conewise.station.files.Mutations;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever stands in a file, either a plan or sentences come out. */
class PlanFuzzTest {

  private static final int MUTATIONS = 1000;

  /** Not a measure of speed: a guard against an endless loop. */
  private static final Duration PATIENCE = Duration.ofMinutes(2);

  @TempDir Path directory;

  static Stream<Arguments> goodPlans() throws IOException {
    try (InputStream in = PlanFuzzTest.class.getResourceAsStream("/conewise/plans/heron.yaml")) {
      byte[] json =
          ("{\"plan\": 1, \"name\": \"One\", \"box\": \"sealed\", \"drivers\": [{\"name\": \"w\","
                  + " \"coil_ohm\": [5.5, 5]}], \"wiring\": {\"series\": [\"w.1\", \"w.2\"]},"
                  + " \"limits\": {\"resonance_hz\": {\"low\": 4e1}}}")
              .getBytes(StandardCharsets.UTF_8);
      return Stream.of(Arguments.of("a.yaml", in.readAllBytes()), Arguments.of("a.json", json));
    }
  }

  @ParameterizedTest
  @MethodSource("goodPlans")
  void onlyAPlanOrSentencesComeOut(String name, byte[] good) {
    long first = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("fuzz " + name + ": -Dconewise.seed=" + first);
    assertTimeoutPreemptively(
        PATIENCE,
        () -> {
          for (long seed = first; seed < first + MUTATIONS; seed++) {
            readOne(name, Mutations.of(good, new Random(seed)), seed);
          }
        });
  }

  private void readOne(String name, byte[] bytes, long seed) throws IOException {
    Path file = Files.write(directory.resolve(name), bytes);
    try {
      assertNotNull(PlanFile.read(file).wiring());
    } catch (BadFileException e) {
      for (String problem : e.problems()) {
        assertFalse(problem.contains("\n"), "seed " + seed + ": " + problem);
        assertFalse(problem.contains("fasterxml"), "seed " + seed + ": " + problem);
        assertFalse(problem.isBlank(), "seed " + seed);
      }
    } catch (RuntimeException e) {
      fail("seed " + seed + " brought out " + e, e);
    }
  }
}
