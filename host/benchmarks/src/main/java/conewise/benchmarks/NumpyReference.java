package conewise.benchmarks;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/** The same tasks in NumPy and SciPy, timed within their own process on one thread. */
final class NumpyReference {

  private static final int LONGEST_SECONDS = 180;

  private NumpyReference() {}

  /** Microseconds of each task; empty when Python, NumPy or SciPy is missing. */
  static Map<String, Double> microseconds() throws IOException, InterruptedException {
    Path script = Files.createTempFile("reference", ".py");
    Path output = Files.createTempFile("reference", ".txt");
    try (InputStream source = NumpyReference.class.getResourceAsStream("reference.py")) {
      Files.write(script, source.readAllBytes());
      ProcessBuilder builder =
          new ProcessBuilder("/usr/bin/python3", script.toString())
              .redirectOutput(output.toFile())
              .redirectError(ProcessBuilder.Redirect.DISCARD);
      builder.environment().put("OMP_NUM_THREADS", "1");
      builder.environment().put("OPENBLAS_NUM_THREADS", "1");
      Process process = start(builder);
      if (process == null || !process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)) {
        stop(process);
        return Map.of();
      }
      return process.exitValue() == 0 ? parse(output) : Map.of();
    } finally {
      Files.deleteIfExists(script);
      Files.deleteIfExists(output);
    }
  }

  private static Process start(ProcessBuilder builder) {
    try {
      return builder.start();
    } catch (IOException notInstalled) {
      return null;
    }
  }

  private static void stop(Process process) {
    if (process != null) {
      process.destroyForcibly();
    }
  }

  private static Map<String, Double> parse(Path output) throws IOException {
    Map<String, Double> times = new HashMap<>();
    try (BufferedReader lines = Files.newBufferedReader(output, StandardCharsets.UTF_8)) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        int space = line.indexOf(' ');
        times.put(line.substring(0, space), Double.parseDouble(line.substring(space + 1)));
      }
    }
    return times;
  }
}
