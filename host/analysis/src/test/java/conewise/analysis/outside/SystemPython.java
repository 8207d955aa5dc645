package conewise.analysis.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;

/** The system's Python with NumPy and SciPy, as a second opinion. */
public final class SystemPython {
  private static final String PROGRAM = "/usr/bin/python3";
  private static final int MOST_SECONDS = 60;

  private SystemPython() {}

  /** Skips the tests where it is absent; with CI=true that fails them. */
  public static void require() throws IOException, InterruptedException {
    boolean there =
        Files.isExecutable(Path.of(PROGRAM))
            && new ProcessBuilder(PROGRAM, "-c", "import numpy, scipy.signal, scipy.optimize")
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start()
                    .waitFor()
                == 0;
    if (!"true".equals(System.getenv("CI"))) {
      assumeTrue(there, "python3 with numpy and scipy is not installed");
    }
    assertTrue(there, "python3 with numpy and scipy is needed where CI=true");
  }

  /**
   * Runs a script on numbers, one a line in the file that is its argument; each line that it prints
   * is a row of numbers.
   */
  public static List<double[]> run(Path folder, String script, double[] data)
      throws IOException, InterruptedException {
    Path input = folder.resolve("data.txt");
    Path output = folder.resolve("output.txt");
    Path program = folder.resolve("program.py");
    Files.writeString(
        input, Arrays.stream(data).mapToObj(Double::toString).collect(Collectors.joining("\n")));
    Files.writeString(program, script);
    Process process =
        new ProcessBuilder(PROGRAM, program.toString(), input.toString())
            .redirectErrorStream(true)
            .redirectOutput(output.toFile())
            .start();
    assertTrue(
        process.waitFor(MOST_SECONDS, TimeUnit.SECONDS),
        "python3 did not end within " + MOST_SECONDS + " s");
    String text = Files.readString(output, StandardCharsets.UTF_8);
    assertEquals(0, process.exitValue(), text);
    return text.lines()
        .map(line -> Arrays.stream(line.split(" ", -1)).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }
}
