package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** Builds the firmware and the emulator, once in a run of the tests. */
final class Workshop {
  private static final long BUILD_SECONDS = 120;
  private static boolean built;

  private Workshop() {}

  static Path elf() {
    return folder("firmware").resolve("build/conewise.elf");
  }

  static Path emulator() {
    return folder("emulation").resolve("build/emulated-board");
  }

  /**
   * Skips the test where the tools of the firmware are not installed; fails it there with CI=true.
   */
  static synchronized void require() throws IOException, InterruptedException {
    List<String> missing = missing();
    String sentence = "missing for the emulated board: " + missing;
    assertTrue(missing.isEmpty() || !"true".equals(System.getenv("CI")), sentence);
    Assumptions.assumeTrue(missing.isEmpty(), sentence);
    if (!built) {
      make(folder("firmware"));
      make(folder("emulation"));
      built = true;
    }
  }

  private static List<String> missing() {
    return List.of("avr-gcc", "make", "/usr/include/simavr/sim_avr.h", "/usr/include/libelf.h")
        .stream()
        .filter(part -> !isThere(part))
        .toList();
  }

  private static boolean isThere(String part) {
    String path = System.getenv().getOrDefault("PATH", "");
    return part.startsWith("/")
        ? Files.exists(Path.of(part))
        : Arrays.stream(path.split(":", -1))
            .anyMatch(folder -> Files.isExecutable(Path.of(folder, part)));
  }

  private static void make(Path folder) throws IOException, InterruptedException {
    Path log = Files.createTempFile("conewise-make", ".txt");
    try {
      Process make =
          new ProcessBuilder("make", "-s", "-C", folder.toString())
              .redirectErrorStream(true)
              .redirectOutput(log.toFile())
              .start();
      boolean ended = make.waitFor(BUILD_SECONDS, TimeUnit.SECONDS);
      make.destroyForcibly();
      String said = Files.readString(log);
      assertTrue(ended, () -> "make did not end within " + BUILD_SECONDS + " s: " + said);
      assertEquals(0, make.exitValue(), said);
    } finally {
      Files.delete(log);
    }
  }

  private static Path folder(String name) {
    for (Path at = Path.of("").toAbsolutePath(); at != null; at = at.getParent()) {
      Path folder = at.resolve("firmware-sim").resolve(name);
      if (Files.isDirectory(folder)) {
        return folder;
      }
    }
    throw new AssertionError("firmware-sim/" + name + " is in no folder above this one");
  }
}
