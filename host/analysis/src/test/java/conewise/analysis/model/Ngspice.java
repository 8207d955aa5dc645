package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.complex.Complex;

/** The circuit solver ngspice, asked for one AC analysis. */
public final class Ngspice {
  private static final Path PROGRAM = Path.of("/usr/bin/ngspice");
  private static final int LONGEST_SECONDS = 30;

  /** An impedance at a frequency. */
  public record Point(double hz, Complex ohm) {}

  private Ngspice() {}

  /** Skips a test where ngspice is not installed; fails it where CI is true. */
  public static void require() {
    boolean present = Files.isExecutable(PROGRAM);
    if ("true".equals(System.getenv("CI"))) {
      assertTrue(present, PROGRAM + " is missing, and CI is true");
    }
    assumeTrue(present, PROGRAM + " is missing; install the package ngspice to run this check");
  }

  /**
   * The impedance between node "in" and ground, from one ampere into it.
   *
   * @param parts the netlist without source and title
   * @param sweep what stands behind ".ac"
   */
  public static List<Point> impedance(Path folder, String parts, String sweep)
      throws IOException, InterruptedException {
    Path netlist = folder.resolve("box.cir");
    Path result = folder.resolve("z.txt");
    Path log = folder.resolve("log.txt");
    Files.writeString(
        netlist,
        "box\nI1 0 in dc 0 ac 1\nRfar in 0 1e12\n"
            + parts
            + ".control\nset numdgt=14\nac "
            + sweep
            + "\nwrdata "
            + result
            + " v(in)\nquit\n.endc\n.end\n");
    Process process =
        new ProcessBuilder(PROGRAM.toString(), "-b", netlist.toString())
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    if (!process.waitFor(LONGEST_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("ngspice did not end within " + LONGEST_SECONDS + " s");
    }
    assertTrue(Files.exists(result), "ngspice said: " + Files.readString(log));
    return read(result);
  }

  private static List<Point> read(Path result) throws IOException {
    List<Point> points = new ArrayList<>();
    for (String line : Files.readAllLines(result)) {
      String[] words = line.trim().split("\\s+", -1);
      points.add(
          new Point(
              Double.parseDouble(words[0]),
              new Complex(Double.parseDouble(words[1]), Double.parseDouble(words[2]))));
    }
    return points;
  }
}
