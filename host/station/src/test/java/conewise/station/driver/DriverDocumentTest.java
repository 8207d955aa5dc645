package conewise.station.driver;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.command.CommandRun;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The commands of docs/driver.md, straight from the document. The worlds solve a driver's equations
 * of motion in time, with a jig's converter and tolerances; nothing of that is shared with the fit.
 */
class DriverDocumentTest {
  private static final Path ROOT = Path.of("..", "..");
  private static final Pattern COMMANDS =
      Pattern.compile("<!-- run by: DriverDocumentTest -->\\n```\\n(.*?)```", Pattern.DOTALL);

  /**
   * What the worlds state, and what follows from it (Small, J. Audio Eng. Soc. 20, 1972): Cms = Vas
   * / (rho c^2 Sd^2), Mms = 1 / ((2 pi fs)^2 Cms), Rms = 2 pi fs Mms / Qms, Bl^2 = 2 pi fs Mms Re /
   * Qes, with 1.204 kg/m3 and 343.2 m/s; computed apart from this program to four digits.
   */
  private static final Map<String, Double> TRUTH =
      Map.ofEntries(
          Map.entry("fs", 29.0),
          Map.entry("Qms", 6.0),
          Map.entry("Qes", 0.48),
          Map.entry("Qts", 0.4444),
          Map.entry("Re", 6.2),
          Map.entry("Mms", 63.30),
          Map.entry("Cms", 0.4758),
          Map.entry("Rms", 1.922),
          Map.entry("Bl", 12.21),
          Map.entry("Vas", 78.0),
          Map.entry("Sd", 340.0));

  /** Half an interval over its value: an interval so wide that it holds anything tells nothing. */
  private static final double WIDEST = 0.05;

  @TempDir Path folder;

  @Test
  void theDocumentsCommandsGiveTheDriversOwnParameters() throws Exception {
    List<List<String>> commands = commands();
    assertEquals(5, commands.size());
    for (List<String> words : commands.subList(0, 4)) {
      CommandRun run = CommandRun.of(words.toArray(String[]::new));
      assertEquals(0, run.exitCode(), run.err());
    }
    List<String> fit = new ArrayList<>(commands.get(4));
    CommandRun text = CommandRun.of(fit.toArray(String[]::new));
    assertEquals(0, text.exitCode(), text.err());
    assertTrue(text.out().contains("3 sweeps, fitted together"), text.out());
    assertTrue(text.out().contains("standard uncertainty of 0.58 %"), text.out());
    fit.add("--json");
    JsonNode answer = new ObjectMapper().readTree(CommandRun.of(fit.toArray(String[]::new)).out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    // A resistor of 1 %, all values within equally likely: 1 % over the root of 3 (JCGM 100,
    // 4.3.7).
    double scale = answer.get("curve_scale_standard_uncertainty").asDouble();
    assertEquals(0.01 / Math.sqrt(3), scale, 1e-9);
    int held = 0;
    for (JsonNode figure : answer.get("figures")) {
      held += holds(figure) ? 1 : 0;
    }
    assertEquals(TRUTH.size(), held);
  }

  private static boolean holds(JsonNode figure) {
    Double truth = TRUTH.get(figure.get("symbol").asText());
    if (truth == null) {
      return false;
    }
    double low = figure.at("/interval/low").asDouble();
    double high = figure.at("/interval/high").asDouble();
    System.out.println(
        figure.get("symbol").asText()
            + " "
            + truth
            + ": "
            + figure.get("value")
            + " in "
            + low
            + " to "
            + high);
    assertTrue(low <= truth && truth <= high, truth + " against " + figure);
    assertTrue(high - low <= 2 * WIDEST * truth, figure.toString());
    return true;
  }

  /** Words without the launcher's name; what is written goes into the test's own folder. */
  private List<List<String>> commands() throws Exception {
    Matcher block = COMMANDS.matcher(Files.readString(ROOT.resolve("docs/driver.md")));
    assertTrue(block.find(), "docs/driver.md has no commands");
    return block.group(1).lines().map(this::words).toList();
  }

  private List<String> words(String line) {
    assertTrue(line.startsWith("./conewise "), line);
    List<String> words = new ArrayList<>();
    for (String word : line.substring("./conewise ".length()).split(" +", -1)) {
      words.add(placed(word));
    }
    return words;
  }

  private String placed(String word) {
    if (word.startsWith("docs/")) {
      return ROOT.resolve(word).toString();
    }
    int sign = word.indexOf('=');
    return word.matches(".*\\.(csv|json)")
        ? word.substring(0, sign + 1) + folder.resolve(word.substring(sign + 1))
        : word;
  }
}
