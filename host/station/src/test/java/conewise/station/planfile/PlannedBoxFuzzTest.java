package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import conewise.analysis.plan.PlannedBox;
import conewise.station.files.BadFileException;
import conewise.station.files.Mutations;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever stands in a file, either sentences come out or a plan with a model. */
class PlannedBoxFuzzTest {
  private static final int MUTATIONS = 700;

  /** Not a measure of speed: a guard against an endless loop. */
  private static final Duration PATIENCE = Duration.ofMinutes(3);

  @TempDir Path directory;

  static Stream<Arguments> goodPlans() throws IOException {
    Path plans = Path.of("../../docs/examples/plans");
    byte[] full = Files.readAllBytes(plans.resolve("lapwing.yaml"));
    Object tree = new ObjectMapper(new YAMLFactory()).readTree(plans.resolve("ruff.yaml").toFile());
    return Stream.of(
        Arguments.of("a.yaml", full),
        Arguments.of("b.yaml", Files.readAllBytes(plans.resolve("curlew.yaml"))),
        Arguments.of("c.json", tree.toString().getBytes(StandardCharsets.UTF_8)));
  }

  @ParameterizedTest
  @MethodSource("goodPlans")
  void onlyAPlanOrSentencesComeOut(String name, byte[] good) {
    long first = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("fuzz " + name + ": -Dconewise.seed=" + first);
    assertTimeoutPreemptively(
        PATIENCE,
        () -> {
          int plans = 0;
          for (long seed = first; seed < first + MUTATIONS; seed++) {
            plans += readOne(name, Mutations.of(good, scattered(seed)), seed) ? 1 : 0;
          }
          assertTrue(plans > 0, "seed " + first + ": no mutation left a plan");
        });
  }

  /** True when a plan came out. */
  private boolean readOne(String name, byte[] bytes, long seed) throws IOException {
    Path file = Files.write(directory.resolve(name), bytes);
    try {
      PlannedBox plan = PlannedBoxFile.read(file);
      assertTrue(plan.model().conducts(), "seed " + seed);
      assertFalse(plan.unknowns().isEmpty(), "seed " + seed);
      PlannedBox again =
          PlannedBoxFile.parse("again.yaml", PlannedBoxText.write(plan).lines().toList());
      assertEquals(plan, again, "seed " + seed);
      return true;
    } catch (BadFileException e) {
      for (String problem : e.problems()) {
        assertFalse(problem.contains("\n"), "seed " + seed + ": " + problem);
        assertFalse(problem.contains("fasterxml"), "seed " + seed + ": " + problem);
        assertFalse(problem.isBlank(), "seed " + seed);
      }
      return false;
    } catch (RuntimeException e) {
      return fail("seed " + seed + " brought out " + e, e);
    }
  }

  /** Neighbouring seeds of Random begin alike; these do not. */
  private static Random scattered(long seed) {
    return new Random(new SplittableRandom(seed).nextLong());
  }
}
