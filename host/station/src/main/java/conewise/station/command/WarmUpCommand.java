package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;

/**
 * {@code warm-up}: judges a bundled example and throws the answer away, so that a class-data
 * archive made of this run holds what later runs need.
 */
@Command(
    name = "warm-up",
    hidden = true,
    mixinStandardHelpOptions = true,
    description = "Loads what a judgement needs; for making the class-data archive.")
final class WarmUpCommand implements Callable<Integer> {
  @Override
  public Integer call() throws IOException {
    Path folder = Files.createTempDirectory("conewise-warm-up-");
    Path curve = folder.resolve("example.csv");
    Path plan = folder.resolve("heron.yaml");
    Path report = folder.resolve("report.html");
    try {
      copy("/conewise/station/example.csv", curve);
      copy("/conewise/plans/heron.yaml", plan);
      String[] judge = {
        "judge", curve.toString(), "--plan", plan.toString(), "--report", report.toString()
      };
      int text = Application.run(silent(), judge);
      String[] json = {"judge", "--json", curve.toString(), "--plan", plan.toString()};
      int machine = Application.run(silent(), json);
      boolean fine = text == ExitCode.PASS.number() && machine == ExitCode.PASS.number();
      return fine ? ExitCode.PASS.number() : ExitCode.UNEXPECTED.number();
    } finally {
      for (Path file : new Path[] {curve, plan, report, folder}) {
        Files.deleteIfExists(file);
      }
    }
  }

  private static void copy(String resource, Path to) throws IOException {
    try (InputStream in = WarmUpCommand.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IOException("the program lacks its own " + resource);
      }
      Files.copy(in, to);
    }
  }

  private static Screen silent() {
    PrintStream nothing =
        new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
    return new Screen(nothing, nothing, true, false, false);
  }
}
