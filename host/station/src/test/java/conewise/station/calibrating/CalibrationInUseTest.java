package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.command.CommandRun;
import conewise.station.selftest.CheckLog;
import conewise.station.selftest.CheckReading;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From the calibration folder to the verdict, through the commands. */
class CalibrationInUseTest {
  private static final String LIMITS = "low: 3.4 ohm, high: 3.9 ohm";

  @TempDir Path folder;

  private Path plan(String from, String to) throws Exception {
    try (var bundled = getClass().getResourceAsStream("/conewise/plans/heron.yaml")) {
      String text = new String(bundled.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
      assertTrue(text.contains(from), text);
      return Files.writeString(folder.resolve("plan.yaml"), text.replace(from, to));
    }
  }

  private CommandRun run(String command, String world, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                command,
                "--virtual",
                world,
                "--calibrations",
                folder.resolve("calibrations").toString()));
    words.addAll(List.of(more));
    return CommandRun.of(words.toArray(String[]::new));
  }

  private CommandRun check(String world, Path plan, String... more) {
    List<String> words =
        new ArrayList<>(
            List.of(
                "--plan",
                plan.toString(),
                "--serial",
                "1",
                "--keep",
                folder.resolve("runs").toString(),
                "--json"));
    words.addAll(List.of(more));
    return run("check", world, words.toArray(String[]::new));
  }

  private Path calibrated(String world, String tolerance) throws Exception {
    CommandRun run =
        run("calibrate", world, "--resistor", "10", "--tolerance", tolerance, "--json");
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = json(run);
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    return Path.of(answer.get("file").asText());
  }

  private static JsonNode json(CommandRun run) throws Exception {
    return new ObjectMapper().readTree(run.out());
  }

  private static String calibrationLine(CommandRun run) throws Exception {
    for (JsonNode fact : json(run).get("measured")) {
      if (fact.get("label").asText().equals("Calibration")) {
        return fact.get("text").asText();
      }
    }
    return "no such line";
  }

  /** As if it had been made so many days ago. */
  private static void age(Path file, int days) throws Exception {
    String taken = new ObjectMapper().readTree(file.toFile()).get("taken").asText();
    String older = ZonedDateTime.parse(taken).minusDays(days).toOffsetDateTime().toString();
    Files.writeString(file, Files.readString(file).replace(taken, older));
  }

  @Test
  void checkFindsTheJigsOwnCalibrationAndAShopsRuleBlocksAPassWithoutOne() throws Exception {
    // Wide limits, so that nominal scales are good enough for all but the rule.
    Path plan = plan(LIMITS, "low: 2.5 ohm, high: 5 ohm");
    CommandRun missing = check("heron", plan, "--require-calibration");
    assertEquals(3, missing.exitCode(), missing.out());
    JsonNode answer = json(missing);
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    assertEquals("not-judged", answer.get("decision").asText());
    assertTrue(answer.get("headline").asText().contains("There is no calibration of the jig"));
    assertTrue(answer.get("action").asText().contains("conewise calibrate"));
    assertTrue(calibrationLine(missing).startsWith("none: nominal scales"));

    // A jig of other parts was calibrated, not this one.
    Path other = calibrated("wren", "0.1");
    CommandRun foreign =
        check("heron", plan, "--require-calibration", "--calibration", other.toString());
    assertEquals(3, foreign.exitCode(), foreign.out());
    assertTrue(json(foreign).get("headline").asText().contains("was made on board virtual"));
    assertEquals(65, check("heron", plan, "--calibration", other.toString()).exitCode());

    Path own = calibrated("heron", "0.1");
    CommandRun found = check("heron", plan, "--require-calibration");
    assertEquals(0, found.exitCode(), found.out());
    String line = calibrationLine(found);
    assertTrue(line.startsWith("CAL-") && line.contains("found by the jig's serial"), line);

    age(own, 8);
    CommandRun unchecked = check("heron", plan, "--require-calibration");
    assertEquals(3, unchecked.exitCode(), unchecked.out());
    assertTrue(json(unchecked).get("headline").asText().contains("last proven 8 days ago"));
    assertEquals(64, check("heron", plan, "--check-days", "9").exitCode());

    age(own, 23);
    CommandRun stale = check("heron", plan, "--require-calibration");
    assertEquals(3, stale.exitCode(), stale.out());
    assertTrue(json(stale).get("headline").asText().contains("31 days old; at most 30"));
    assertTrue(calibrationLine(stale).contains("older than 30 days"));
    assertEquals(
        0, check("heron", plan, rule("--calibration-days", "60", "--check-days", "0")).exitCode());
  }

  @Test
  void whereASteadyFixtureIsRequiredNoBoxPassesOnACheckResistorThatHasMoved() throws Exception {
    Path plan = plan(LIMITS, "low: 2.5 ohm, high: 5 ohm");
    CheckLog log = CheckLog.in(calibrated("heron", "0.1").getParent());
    for (int day = 0; day < 9; day++) {
      log.append(read(day, 10 + 0.004 * (day % 3 - 1)));
    }
    CommandRun steady = check("heron", plan, "--require-steady-fixture");
    assertEquals(0, steady.exitCode(), steady.out());

    log.append(read(9, 10.06));
    assertEquals(0, check("heron", plan).exitCode());
    CommandRun moved = check("heron", plan, "--require-steady-fixture");
    assertEquals(3, moved.exitCode(), moved.out());
    assertEquals("not-judged", json(moved).get("decision").asText());
    assertTrue(
        json(moved).get("headline").asText().contains("The check resistor R1 read 10.06"),
        moved.out());
    CommandRun reversed = check("heron-driver-reversed", plan, "--require-steady-fixture");
    assertEquals(1, reversed.exitCode(), reversed.out());
  }

  private static CheckReading read(int day, double ohm) {
    return new CheckReading(
        ZonedDateTime.parse("2026-10-01T07:00:00Z").plusDays(day),
        "R1",
        10,
        0.01,
        ohm,
        0.002,
        0.006,
        Optional.of("CAL-1"),
        Optional.empty());
  }

  private static String[] rule(String... more) {
    return Stream.concat(Stream.of("--require-calibration"), Stream.of(more))
        .toArray(String[]::new);
  }

  @Test
  void aFailStaysAFailWhateverTheCalibration() throws Exception {
    Path plan = plan(LIMITS, "low: 2.5 ohm, high: 5 ohm");
    CommandRun reversed = check("heron-driver-reversed", plan, "--require-calibration");
    assertEquals(1, reversed.exitCode(), reversed.out());
    assertTrue(
        json(reversed).get("bench").get(0).get("sentence").asText().contains("no calibration"));
  }

  /**
   * The half width of a 95 % interval is 2 x 5 %/sqrt(3) of the value or more (JCGM 100, 4.3.7).
   */
  @Test
  void aLooseResistorWidensTheIntervalsAndLeavesANearLimitUndecided() throws Exception {
    Path plan = plan(LIMITS, "low: 3.48 ohm, high: 3.9 ohm");
    calibrated("heron", "0.1");
    CommandRun close = check("heron", plan);
    assertEquals(0, close.exitCode(), close.out());
    Path loose = folder.resolve("loose.json");
    run("calibrate", "heron", "--resistor", "brown-black-black-gold", "--out", loose.toString());
    CommandRun wide = check("heron", plan, "--calibration", loose.toString());
    assertEquals(2, wide.exitCode(), wide.out());
    JsonNode narrowOhm = ofCheck(close, "ohm");
    JsonNode wideOhm = ofCheck(wide, "ohm");
    double value = wideOhm.get("value").asDouble();
    double scale = 1.96 * 0.05 / Math.sqrt(3) * value;
    assertTrue(half(wideOhm) >= scale && half(wideOhm) <= 1.3 * scale, wideOhm.toString());
    assertTrue(half(narrowOhm) < 0.3 * scale, narrowOhm.toString());
  }

  /** The check of the DC resistance. */
  private static JsonNode ofCheck(CommandRun run, String unit) throws Exception {
    for (JsonNode check : json(run).get("checks")) {
      if (check.has("unit")
          && check.get("unit").asText().equals(unit)
          && check.get("title").asText().contains("DC")) {
        return check;
      }
    }
    throw new AssertionError(run.out());
  }

  private static double half(JsonNode check) {
    JsonNode interval = check.get("interval");
    return (interval.get("high").asDouble() - interval.get("low").asDouble()) / 2;
  }

  @Test
  void aSelfTestKeepsItsReadingsAndSaysOneWord() throws Exception {
    CommandRun open = run("selftest", "heron", "--json");
    assertEquals(0, open.exitCode(), open.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(json(open)));
    assertFalse(json(open).has("check_resistor"));

    calibrated("heron", "0.1");
    String[] resistor = {"--resistor", "10R", "--tolerance", "0.1", "--json"};
    CommandRun first = run("selftest", "heron", resistor);
    assertEquals(0, first.exitCode(), first.out());
    assertFalse(json(first).get("check_resistor").has("against_first"));
    CommandRun second = run("selftest", "heron", resistor);
    assertEquals(0, second.exitCode(), second.out());
    JsonNode answer = json(second);
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    assertEquals(1, answer.get("check_resistor").get("earlier_readings").asInt());
    assertEquals("good", answer.get("check_resistor").get("against_first").get("word").asText());
    Path log = Path.of(answer.get("check_resistor").get("file").asText());
    try (Stream<String> lines = Files.lines(log)) {
      assertEquals(3, lines.count());
    }

    // The first reading is changed by 3 %, as if the jig had drifted since.
    double read = json(first).get("check_resistor").get("read_ohm").asDouble();
    String text = Files.readString(log);
    Files.writeString(log, text.replace("," + read + ",", "," + read * 1.03 + ","));
    CommandRun drifted = run("selftest", "heron", resistor);
    assertEquals(1, drifted.exitCode(), drifted.out());
    assertEquals("drifted", json(drifted).get("word").asText());

    // And no box passes on that calibration any more where a shop demands one.
    CommandRun box =
        check("heron", plan(LIMITS, "low: 2.5 ohm, high: 5 ohm"), "--require-calibration");
    assertEquals(3, box.exitCode(), box.out());
    String headline = json(box).get("headline").asText();
    assertTrue(headline.contains("no longer holds: the check resistor 10 ohm read"), headline);
    assertTrue(json(box).get("action").asText().contains("conewise selftest"));
    assertTrue(calibrationLine(box).contains("contradicted: the check resistor"));

    // Unknown to 5 %, and no other reading by that name: nothing can be said within 1 %.
    CommandRun loose =
        run("selftest", "heron", "--resistor", "10RJ", "--name", "loose one", "--json");
    assertEquals(2, loose.exitCode(), loose.out());
    assertEquals("undecided", json(loose).get("word").asText());
  }

  @Test
  void mistypedResistorsAreRefusedBeforeAnythingIsMeasured() {
    List<List<String>> wrong =
        List.of(
            List.of("--resistor", "ten", "--tolerance", "1"),
            List.of("--resistor", "10"),
            List.of("--tolerance", "1"),
            List.of("--resistor", "0.5", "--tolerance", "1"),
            List.of("--resistor", "4K7J"),
            List.of("--resistor", "10", "--tolerance", "21"),
            List.of("--resistor", "10", "--tolerance", "NaN"),
            List.of("--resistor", "10", "--tolerance", "1", "--temperature", "200"));
    for (List<String> words : wrong) {
      CommandRun run = run("calibrate", "heron", words.toArray(String[]::new));
      assertEquals(64, run.exitCode(), words + run.err());
      assertEquals(1, run.err().lines().count(), run.err());
      assertFalse(Files.exists(folder.resolve("calibrations")), words.toString());
    }
  }
}
