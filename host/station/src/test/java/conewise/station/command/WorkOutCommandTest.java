package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.calculation.Calculation;
import conewise.station.calculation.Calculations;
import conewise.station.calculation.Entry;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WorkOutCommandTest {
  private static final Pattern SHOWN =
      Pattern.compile(
          "```\\n\\./conewise (work-out [^\\n]*)\\n```\\n\\n```text\\n(.*?)```", Pattern.DOTALL);
  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

  private static String[] words(String line) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(line);
    while (word.find()) {
      words.add(word.group(1) == null ? word.group(2) : word.group(1));
    }
    return words.toArray(String[]::new);
  }

  @Test
  void theDocumentShowsWhatItsCommandsPrint() throws Exception {
    String page = Files.readString(Path.of("../../docs/calculations.md"));
    Matcher shown = SHOWN.matcher(page);
    Set<String> names = new HashSet<>();
    int blocks = 0;
    while (shown.find()) {
      String[] line = words(shown.group(1));
      names.add(line[1]);
      CommandRun run = CommandRun.of(line);
      assertEquals(0, run.exitCode(), run.err());
      assertEquals(shown.group(2), run.out(), shown.group(1));
      blocks++;
    }
    assertEquals(page.lines().filter(each -> each.startsWith("./conewise")).count(), blocks);
    assertEquals(new HashSet<>(Calculations.all().stream().map(Calculation::name).toList()), names);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "load --wiring \"parallel: [a, b]\" --rated 8ohm --dc 6ohm --amplifier 4ohm",
        "coils --drivers 3 --each 8ohm --wanted 12ohm",
        "vent --volume \"2 cu ft\" --tuning 34Hz --diameter 4in --displacement 0.3l",
        "air --tuning 34Hz",
        "delay --distance 1m --frequency 80Hz",
        "two-sources --second -3dB",
        "lead --gauge 14AWG --length 10m --load 4ohm"
      })
  void answersProgramsAsTheSchemaSays(String line) throws Exception {
    CommandRun run = CommandRun.of(words("work-out " + line + " --json"));
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    assertEquals(words(line)[0], answer.get("calculation").asText());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "vnt",
        "vent",
        "vent --volume 60 --tuning 34Hz --diameter 10cm",
        "vent --volume 60l --volume 50l --tuning 34Hz --diameter 10cm",
        "vent --volume 60l --tuning 300Hz --diameter 10cm",
        "lead --gauge 14AWG --length 10m --load 4ohm --colour red"
      })
  void whatMakesNoSenseIsToldInOneSentence(String line) {
    CommandRun run = CommandRun.of(words("work-out " + line));
    assertEquals(64, run.exitCode(), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
    assertEquals("", run.out());
  }

  @Test
  void aSlipOfTheHandIsToldTheNearestCalculation() {
    CommandRun run = CommandRun.of("work-out", "vnt");
    assertTrue(run.err().contains("vent is near"), run.err());
  }

  @Test
  void helpNamesEveryCalculationAndEveryEntry() {
    String all = CommandRun.of("work-out", "--help").out();
    for (Calculation each : Calculations.all()) {
      assertTrue(all.contains("  " + each.name()), all);
      String help = CommandRun.of("work-out", each.name(), "--help").out();
      for (Entry entry : each.entries()) {
        assertTrue(help.contains("--" + entry.name()), help);
      }
    }
  }
}
