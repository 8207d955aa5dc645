package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.protocol.JigIdentity;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.SchemaCheck;
import conewise.station.answer.Screen;
import conewise.station.command.CommandRun;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.measuring.StopRequest;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibratingTest {
  @TempDir Path folder;

  private Path calibration(String world) {
    Path file = folder.resolve(world + ".json");
    CommandRun run =
        CommandRun.of(
            "calibrate",
            "--resistor",
            "10",
            "--tolerance",
            "0.1",
            "--virtual",
            world,
            "--out",
            file.toString());
    assertEquals(0, run.exitCode(), run.err());
    return file;
  }

  // Truths as the worlds state them; plover's reversed driver cannot be seen, so it stays
  // undecided.
  @ParameterizedTest
  @CsvSource({
    "heron, heron, 0",
    "heron-driver-reversed, heron, 1",
    "heron-leaky, heron, 1",
    "wren, wren, 0",
    "wren-driver-reversed, wren, 1",
    "plover, plover, 2",
    "dipper, dipper, 0"
  })
  void aCalibratedJigSaysOfEachBoxWhatIsTrueOfIt(String world, String plan, int exitCode)
      throws Exception {
    Path planFile = folder.resolve(plan + ".yaml");
    try (var bundled = getClass().getResourceAsStream("/conewise/plans/" + plan + ".yaml")) {
      Files.write(planFile, bundled.readAllBytes());
    }
    CommandRun run =
        CommandRun.of(
            "check",
            "--virtual",
            world,
            "--plan",
            planFile.toString(),
            "--serial",
            "1",
            "--keep",
            folder.resolve("runs").toString(),
            "--calibration",
            calibration(world).toString(),
            "--json");
    assertEquals(exitCode, run.exitCode(), run.out() + run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    // 0.1 % of tolerance, all values within equally likely (JCGM 100, 4.3.7).
    assertEquals(
        0.001 / Math.sqrt(3), answer.get("curve_scale_standard_uncertainty").asDouble(), 1e-9);
  }

  @Test
  void theAnswerHoldsToItsSchemaAndAFileIsNotReplacedUnasked() throws Exception {
    String[] words = {
      "calibrate",
      "--resistor",
      "4.7",
      "--tolerance",
      "1",
      "--virtual",
      "heron",
      "--json",
      "--out",
      folder.resolve("c.json").toString()
    };
    CommandRun run = CommandRun.of(words);
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    CommandRun again = CommandRun.of(words);
    assertEquals(74, again.exitCode());
    assertTrue(again.err().contains("is there already"), again.err());
  }

  @Test
  void aFileGivesBackWhatWasWrittenAndIsRefusedForAnotherJig() throws Exception {
    Path file = calibration("heron");
    JsonNode content = new ObjectMapper().readTree(file.toFile());
    assertEquals(List.of(), SchemaCheck.named("calibration-1").problems(content));
    StoredCalibration stored = CalibrationFile.read(file);
    Path copy = folder.resolve("copy.json");
    CalibrationFile.write(copy, stored, Existing.REFUSE);
    StoredCalibration back = CalibrationFile.read(copy);
    assertEquals(stored.calibration().correction(), back.calibration().correction());
    assertEquals(stored.taken(), back.taken());
    JigIdentity jig = stored.jig();
    assertEquals(Optional.empty(), back.foreignTo(jig));
    JigIdentity other =
        new JigIdentity(
            new JigIdentity.Jig(
                jig.jig().firmware(), "other-board", jig.jig().serial(), jig.jig().calibration()),
            jig.clock(),
            jig.converter(),
            jig.channels(),
            jig.drive(),
            jig.wave(),
            jig.record(),
            jig.link(),
            jig.fitted());
    assertTrue(back.foreignTo(other).orElseThrow().contains("other-board"));
    assertTrue(back.describe(back.taken().plusDays(31), 30).contains("older than 30 days"));
    assertFalse(back.describe(back.taken().plusDays(30), 30).contains("older"));
  }

  @Test
  void aDamagedFileIsRefusedInOneSentenceOrReadsWithinItsLimits() throws Exception {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    Random random = new Random(seed);
    byte[] good = Files.readAllBytes(calibration("heron"));
    Path file = folder.resolve("damaged.json");
    for (int trial = 0; trial < 300; trial++) {
      byte[] bytes = good.clone();
      int at = random.nextInt(bytes.length);
      bytes[at] = (byte) (' ' + random.nextInt(95));
      Files.write(file, trial % 3 == 0 ? java.util.Arrays.copyOf(bytes, at) : bytes);
      try {
        CalibrationFile.read(file);
      } catch (BadFileException bad) {
        assertEquals(1, bad.getMessage().lines().count(), "seed " + seed);
        assertFalse(bad.getMessage().contains("Exception"), "seed " + seed + bad.getMessage());
      }
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '!',
      value = {
        "\"tolerance_percent\":0.1 | \"tolerance_percent\":\"0.1\" | tolerance_percent",
        "\"jig\":[ | \"jig\":[null, | empty topic",
        "\"schema\" | \"id\":\"A\",\"schema\" | is no calibration",
        "\"taken\":\"20 | \"taken\":\"the 20 | taken is not a time",
        "\"resistor_ohm\":10.0 | \"resistor_ohm\":null | resistor_ohm",
        "\"id\":\"CAL- | \"id\":\"CAL\\n | its id is not",
        "\"resistor_ohm\" | \"resister_ohm\" | is wrong"
      })
  void aMistakeInAFileIsNamed(String from, String to, String said) throws Exception {
    String text = Files.readString(calibration("heron"));
    assertTrue(text.contains(from), from);
    Path file = folder.resolve("mistaken.json");
    Files.writeString(
        file,
        text.replaceFirst(
            java.util.regex.Pattern.quote(from), java.util.regex.Matcher.quoteReplacement(to)));
    BadFileException bad = assertThrows(BadFileException.class, () -> CalibrationFile.read(file));
    assertTrue(bad.getMessage().contains(said), bad.getMessage());
    assertEquals(1, bad.getMessage().lines().count(), bad.getMessage());
  }

  /** Clips on which the same thing stays whatever is asked for. */
  private record Deaf(Clips clips, CalibrationStep stays, List<String> refusals) implements Clips {
    @Override
    public <T> T then(String instruction, CalibrationStep step, Measuring<T> measuring)
        throws CommandFailure {
      return clips.then(instruction, stays, measuring);
    }

    @Override
    public void refused(String sentence) {
      refusals.add(sentence);
    }
  }

  @Test
  void aWrongStepIsRefusedByWhatItReadsAndEndsUncalibrated() {
    PrintStream nowhere =
        new PrintStream(OutputStream.nullOutputStream(), true, StandardCharsets.UTF_8);
    Screen screen = new Screen(nowhere, nowhere, true, false, false);
    World world = DemoWorld.HERON.load();
    try (ProgressLine progress = new ProgressLine(screen);
        StopRequest stop = StopRequest.listen()) {
      Deaf deaf =
          new Deaf(
              new VirtualClips(world, 10, progress), CalibrationStep.RESISTOR, new ArrayList<>());
      CommandFailure failure =
          assertThrows(
              CommandFailure.class,
              () -> new Calibrating(deaf, 10, 0.01, progress, stop).run("C-1"));
      assertEquals(ExitCode.NOT_JUDGED, failure.exitCode());
      assertTrue(
          failure.getMessage().contains("open clips read at least 500 ohm"), failure::getMessage);
      assertEquals(2, deaf.refusals().size());
    }
  }

  @Test
  void aStandardReadByACalibratedJigIsTheStandard() throws Exception {
    StoredCalibration stored = CalibrationFile.read(calibration("heron"));
    var correction = stored.calibration().correction();
    ImpedancePoint read = correction.standard().points().get(20);
    ImpedancePoint corrected =
        ((conewise.analysis.outcome.Outcome.Found<ImpedancePoint>) correction.apply(read)).value();
    assertEquals(10, corrected.resistanceOhm(), 1e-9);
    assertEquals(0, corrected.reactanceOhm(), 1e-9);
  }
}
