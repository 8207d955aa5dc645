package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CommandLineTest {
  @TempDir Path folder;
  private Path plan;
  private Path curve;

  @BeforeEach
  void layOutFiles() throws Exception {
    plan = copy("/conewise/plans/heron.yaml", "heron.yaml");
    curve = copy("/conewise/station/example.csv", "box.csv");
  }

  @Test
  void aGoodCurvePassesWithExitCodeZero() {
    CommandRun run = judge();
    assertEquals(0, run.exitCode(), run.err());
    assertTrue(run.out().startsWith("PASS [ok]"), run.out());
  }

  @Test
  void judgeWritesTheReportWhereAsked() throws Exception {
    Path report = folder.resolve("deep").resolve("card.html");
    CommandRun run = judge("--report", report.toString(), "--serial", "C-9");
    assertEquals(0, run.exitCode(), run.err());
    assertTrue(Files.readString(report).contains("<h1>C-9</h1>"));
  }

  @Test
  void aReportThatCannotBeWrittenHasItsOwnExitCode() {
    CommandRun run = judge("--report", curve.resolve("card.html").toString());
    assertEquals(74, run.exitCode());
    assertOneSentence(run);
  }

  @Test
  void jsonAnswersFollowThePublishedSchema() throws Exception {
    List<CommandRun> runs =
        List.of(
            judge("--json"),
            CommandRun.of("ports", "--json"),
            CommandRun.of("virtual-jig", "--list", "--json"),
            CommandRun.of("identify", "--virtual", "heron", "--json"),
            CommandRun.of("sweep", "--virtual", "heron", "--json"),
            CommandRun.of("conform", "--virtual", "heron", "--json"),
            CommandRun.of("study", "--boxes", "2", "--json"),
            check("wren", "W-1", "--json"),
            CommandRun.of("judge", "--json"),
            CommandRun.of("judge", folder + "/none.csv", "--plan", plan.toString(), "--json"));
    SchemaCheck schema = SchemaCheck.named("answer-1");
    for (CommandRun run : runs) {
      JsonNode answer = new ObjectMapper().readTree(run.out());
      assertEquals(List.of(), schema.problems(answer), run.out());
      assertEquals(run.exitCode(), answer.get("exit_code").asInt());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "64, judge",
    "64, judge box.csv --plam x",
    "64, nonsense",
    "64, sweep --virtual heron --tcp 127.0.0.1:1",
    "64, sweep --seed 1 --tcp 127.0.0.1:1",
    "64, sweep --virtual heron --out box.png",
    "64, virtual-jig",
    "64, conform",
    "64, identify --tcp 127.0.0.1:",
    "64, virtual-jig --listen 70000",
    "65, judge none.csv --plan none.yaml",
    "65, identify --virtual no-such-world",
    "69, identify --port /dev/no-such-port",
    "69, identify --tcp 127.0.0.1:1"
  })
  void eachKindOfTroubleHasItsExitCodeAndOneSentence(int exitCode, String words) {
    CommandRun run = CommandRun.of(words.split(" ", -1));
    assertEquals(exitCode, run.exitCode(), run.err());
    assertEquals("", run.out());
    assertOneSentence(run);
  }

  @Test
  void aMistypedCommandIsToldTheNearestAndAllThereAre() {
    CommandRun run = CommandRun.of("judg");
    assertEquals(64, run.exitCode());
    assertTrue(run.err().contains("\"judg\"; judge is near; the commands are"), run.err());
    assertTrue(run.err().contains("virtual-jig") && !run.err().contains("warm-up"), run.err());
  }

  @Test
  void aRunIsKeptWholeAndRetestsAreCounted() throws Exception {
    check("wren", "W-1");
    CommandRun second = check("wren", "W-1");
    assertTrue(second.out().contains("attempt 2"), second.out());
    Path run = folder.resolve("runs").resolve("W-1").resolve("attempt-002");
    for (String name :
        List.of("plan.yaml", "capture-001.csv", "curve.csv", "job-card.html", "verdict.json")) {
      assertTrue(Files.size(run.resolve(name)) > 0, name + " is missing");
    }
    JsonNode kept = new ObjectMapper().readTree(run.resolve("verdict.json").toFile());
    assertEquals(2, kept.get("attempt").asInt());
  }

  @Test
  void aPlanThatComesAlongIsKeptWithTheRunByItsName() throws Exception {
    Path runs = folder.resolve("named");
    CommandRun run =
        CommandRun.of(
            "check",
            "--virtual",
            "wren",
            "--plan",
            "wren",
            "--serial",
            "W-9",
            "--keep",
            runs.toString());
    assertTrue(run.exitCode() <= 2, run.out() + run.err());
    String kept = Files.readString(runs.resolve("W-9").resolve("attempt-001").resolve("plan.yaml"));
    assertTrue(kept.contains("name: Wren, two 12 inch, sealed"), kept);
  }

  @Test
  void aKeptCurveJudgesAsTheRunDid() throws Exception {
    CommandRun checked = check("wren-driver-reversed", "W-2", "--json");
    Path run = folder.resolve("runs").resolve("W-2").resolve("attempt-001");
    CommandRun judged =
        CommandRun.of(
            "judge",
            run.resolve("curve.csv").toString(),
            "--plan",
            run.resolve("plan.yaml").toString(),
            "--json");
    ObjectMapper mapper = new ObjectMapper();
    assertEquals(
        mapper.readTree(checked.out()).get("checks"), mapper.readTree(judged.out()).get("checks"));
  }

  @Test
  void aVerdictThatCannotBeKeptIsNotShown() throws Exception {
    Path taken = Files.writeString(folder.resolve("taken"), "a file");
    CommandRun run =
        CommandRun.of(
            "check",
            "--virtual",
            "wren",
            "--serial",
            "W-1",
            "--plan",
            wren(),
            "--keep",
            taken.toString());
    assertEquals(74, run.exitCode());
    assertFalse(run.out().contains("PASS"), run.out());
    assertOneSentence(run);
  }

  @Test
  void sweepWritesCurveAndCaptureAndReplacesNothingUnasked() {
    String out = folder.resolve("h.s1p").toString();
    String raw = folder.resolve("h.csv").toString();
    String[] sweep = {"sweep", "--virtual", "dipper", "--out", out, "--raw", raw};
    assertEquals(0, CommandRun.of(sweep).exitCode());
    CommandRun again = CommandRun.of(sweep);
    assertEquals(74, again.exitCode());
    assertOneSentence(again);
    CommandRun judged = CommandRun.of("judge", raw, "--plan", plan.toString());
    assertTrue(judged.exitCode() <= 3, judged.err());
  }

  @Test
  void helpNamesEveryCommandAndHidesTheWarmUp() {
    CommandRun run = CommandRun.of("--help");
    assertEquals(0, run.exitCode());
    for (String name :
        List.of("demo", "ports", "identify", "sweep", "judge", "check", "virtual-jig")) {
      assertTrue(run.out().contains("  " + name + " "), run.out());
    }
    assertFalse(run.out().contains("warm-up"), run.out());
    run.out().lines().forEach(line -> assertTrue(line.length() <= 80, line));
  }

  @Test
  void theWarmUpJudgesItsExample() {
    assertEquals(0, CommandRun.of("warm-up").exitCode());
  }

  private static void assertOneSentence(CommandRun run) {
    assertTrue(run.err().startsWith("conewise: "), run.err());
    assertFalse(run.err().contains("\tat ") || run.err().contains("Exception"), run.err());
  }

  private CommandRun judge(String... more) {
    return CommandRun.of(
        concat(new String[] {"judge", curve.toString(), "--plan", plan.toString()}, more));
  }

  private CommandRun check(String world, String serial, String... more) throws Exception {
    String[] words = {
      "check",
      "--virtual",
      world,
      "--serial",
      serial,
      "--plan",
      wren(),
      "--keep",
      folder.resolve("runs").toString()
    };
    return CommandRun.of(concat(words, more));
  }

  private String wren() throws Exception {
    Path wren = folder.resolve("wren.yaml");
    return Files.exists(wren)
        ? wren.toString()
        : copy("/conewise/plans/wren.yaml", "wren.yaml").toString();
  }

  private static String[] concat(String[] some, String[] more) {
    String[] all = java.util.Arrays.copyOf(some, some.length + more.length);
    System.arraycopy(more, 0, all, some.length, more.length);
    return all;
  }

  private Path copy(String resource, String name) throws Exception {
    Path file = folder.resolve(name);
    try (InputStream in = CommandLineTest.class.getResourceAsStream(resource)) {
      Files.copy(in, file);
    }
    return file;
  }
}
