package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The build guide's first measurement, as its reader types it. The readings that it allows were
 * solved from the circuit's netlist; the virtual jig knows nothing of that solution.
 */
class FirstLoadsTest {
  private static final Path ROOT = Path.of("..", "..");

  @TempDir Path folder;

  private static String guide() throws IOException {
    return Files.readString(ROOT.resolve("hardware-notes/build-guide.md"));
  }

  /** Runs the guide's own line for a load, with more words behind it. */
  private static CommandRun typed(String load, String... more) throws IOException {
    Matcher line =
        Pattern.compile("(?m)^\\./conewise (sweep .*first-loads/" + load + "\\.yaml)$")
            .matcher(guide());
    assertTrue(line.find(), "the guide has no line for " + load);
    String words = line.group(1).replace("hardware-notes/", ROOT + "/hardware-notes/");
    List<String> arguments = new ArrayList<>(Arrays.asList(words.split(" ")));
    arguments.addAll(Arrays.asList(more));
    return CommandRun.of(arguments.toArray(String[]::new));
  }

  private static String saidOf(String load) throws IOException {
    Matcher row = Pattern.compile("(?m)^\\| " + load + " \\| (No curve: .*) \\|$").matcher(guide());
    assertTrue(row.find(), "the guide does not say what the program says of " + load);
    return row.group(1);
  }

  @Test
  void openClipsAreToldAsTheGuideSays() throws IOException {
    noCurve("open");
  }

  @Test
  void shortedClipsAreToldAsTheGuideSays() throws IOException {
    noCurve("short");
  }

  private static void noCurve(String load) throws IOException {
    CommandRun run = typed(load);
    assertNotEquals(0, run.exitCode(), run.out());
    String answer = run.out().replaceAll("\\s+", " ");
    assertTrue(answer.contains(saidOf(load)), answer);
  }

  @Test
  void resistorsReadFlatAndWithinWhatTheGuideAllowsAFreshJig() throws IOException {
    for (String ohm : List.of("3.9", "10")) {
      Matcher row =
          Pattern.compile(
                  "(?m)^\\| "
                      + Pattern.quote(ohm)
                      + " ohm \\| [0-9.]+ to [0-9.]+ \\| ([0-9.]+) to ([0-9.]+) \\|")
              .matcher(guide());
      assertTrue(row.find(), "the guide has no readings for " + ohm);
      double low = Double.parseDouble(row.group(1));
      double high = Double.parseDouble(row.group(2));
      Path curve = folder.resolve(ohm + ".csv");
      CommandRun run = typed(ohm + "-ohm", "--out", curve.toString());
      assertEquals(0, run.exitCode(), run.err());
      int points = 0;
      for (String line : Files.readAllLines(curve)) {
        if (!line.matches("[0-9].*")) {
          continue;
        }
        points++;
        double resistance = Double.parseDouble(line.split(",", -1)[1]);
        assertTrue(
            resistance >= low && resistance <= high,
            () -> ohm + " ohm read as " + line + "; allowed " + low + " to " + high);
      }
      assertTrue(points > 100, points + " points");
    }
  }
}
