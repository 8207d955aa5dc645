package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ToneCommandTest {
  @TempDir static Path sweeps;

  @TempDir Path folder;

  private CommandRun tone(String... options) {
    List<String> line = new ArrayList<>(List.of("tone", "--out", wav().toString()));
    line.addAll(Arrays.asList(options));
    return CommandRun.of(line.toArray(String[]::new));
  }

  private Path wav() {
    return folder.resolve("tone.wav");
  }

  /** Each world is swept once. */
  private static String swept(String world) {
    Path curve = sweeps.resolve(world + ".csv");
    if (Files.exists(curve)) {
      return curve.toString();
    }
    CommandRun run = CommandRun.of("sweep", "--virtual", world, "--out", curve.toString());
    assertEquals(0, run.exitCode(), run.err());
    return curve.toString();
  }

  private static JsonNode json(CommandRun run) throws Exception {
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    return answer;
  }

  /** The virtual box is tuned to 34 Hz (its world file); the measurement may be 1 % off. */
  @Test
  void theToneOfASweptBoxIsAtItsTuningAndTheFileIsThere() throws Exception {
    JsonNode answer = json(tone("--fit", swept("heron"), "--plan", "heron", "--json"));
    assertEquals(34, answer.get("frequency_hz").asDouble(), 0.34);
    // 10 s of 48000 frames of 6 bytes and a head of 44.
    assertEquals(10 * 48000 * 6 + 44, Files.size(wav()));
    assertTrue(answer.get("caution").asText().contains("ears"));
  }

  @Test
  void theToneOfTheLevelLiesBetween13And2TimesTheTuning() throws Exception {
    String curve = swept("heron");
    String driver = "left";
    JsonNode answer =
        json(tone("--fit", curve, "--plan", "heron", "--level-swapped", driver, "--json"));
    double hz = answer.get("frequency_hz").asDouble();
    assertTrue(hz > 1.29 * 34 && hz < 2.01 * 34, hz + " Hz");
    assertTrue(answer.get("because").asText().contains("dB by the model"));
  }

  @Test
  void aReversedBoxWhoseTuningTheCurveDoesNotTellSaysWhatToPlayInstead() {
    CommandRun run = tone("--fit", swept("heron-driver-reversed"), "--plan", "heron");
    assertEquals(3, run.exitCode(), run.out());
    assertTrue(run.err().contains("--frequency 34"), run.err());
    assertFalse(Files.exists(wav()));
  }

  @ParameterizedTest
  @CsvSource({
    "64, --frequency 4",
    "64, --frequency NaN",
    "64, --frequency 40 --seconds 0",
    "64, --frequency 40 --level 100",
    "64, --frequency 40 --plan heron",
    "64, --fit x.csv",
    "64, --seconds 5",
    "64, --fit x.csv --plan heron --vent hatch",
    "64, --fit x.csv --plan heron --level-swapped nobody",
    "64, --fit x.csv --plan kestrel --level-swapped woofer",
    "64, --fit x.csv --plan kestrel",
    "65, --fit x.csv --plan heron"
  })
  void whatMakesNoSenseIsToldInOneSentence(int exitCode, String line) {
    CommandRun run = tone(line.split(" "));
    assertEquals(exitCode, run.exitCode(), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
    assertFalse(Files.exists(wav()));
  }

  @Test
  void aToneThatCannotBeWrittenIsToldAsSuch() {
    CommandRun run = CommandRun.of("tone", "--frequency", "40", "--out", folder + "/none/tone.wav");
    assertEquals(74, run.exitCode(), run.err());
  }

  @Test
  void whatWasHeardAndFeltIsTakenByJudgeAndItsMistakesAreTold() {
    String curve = swept("heron-driver-reversed");
    CommandRun felt = CommandRun.of("judge", curve, "--plan", "heron", "--wind", "port=none");
    assertEquals(1, felt.exitCode(), felt.err() + felt.out());
    for (String wrong :
        new String[] {"--wind port=breeze", "--wind hatch=none", "--level-swapped left=loud"}) {
      String[] line = ("judge " + curve + " --plan heron " + wrong).split(" ");
      CommandRun run = CommandRun.of(line);
      assertEquals(64, run.exitCode(), wrong);
      assertTrue(
          run.err().contains("write it like " + wrong.substring(0, wrong.indexOf(' '))), run.err());
    }
  }
}
