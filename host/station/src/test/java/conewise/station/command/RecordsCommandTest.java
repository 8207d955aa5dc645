package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Decision;
import conewise.station.answer.SchemaCheck;
import conewise.station.card.SampleCards;
import conewise.station.files.ImpedanceTable;
import conewise.station.files.TouchstoneFile;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import conewise.station.records.SampleRuns;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RecordsCommandTest {
  @TempDir static Path folder;
  private static Path file;

  /** Ten boxes of which one needed a second attempt, and one run that was not judged. */
  @BeforeAll
  static void keepAFewRuns() throws Exception {
    file = folder.resolve("records.db");
    PlanText heron = PlanText.of("heron.yaml", planBytes());
    try (RecordStore store = RecordStore.open(RecordPlace.of(file.toString()))) {
      for (int i = 1; i <= 10; i++) {
        Instant at = SampleRuns.MORNING.plusSeconds(300L * i);
        String serial = "C-" + i;
        if (i == 4) {
          store.append(SampleRuns.run(SampleCards.failed(), "spring", serial, heron, at));
        }
        store.append(
            SampleRuns.run(SampleCards.passed(), "spring", serial, heron, at.plusSeconds(60)));
      }
      Instant late = SampleRuns.MORNING.plusSeconds(9000);
      long last =
          store.append(SampleRuns.run(SampleCards.notJudged(), "autumn", "<b>", heron, late)).id();
      store.overrule(
          store.run(last).orElseThrow(), new Overruling(late, "Grace", Decision.FAIL, "It hums."));
    }
  }

  private static byte[] planBytes() throws Exception {
    try (var in = RecordsCommandTest.class.getResourceAsStream("/conewise/plans/heron.yaml")) {
      return in.readAllBytes();
    }
  }

  private static CommandRun records(String... words) {
    String[] all = Arrays.copyOf(new String[] {"records"}, words.length + 3);
    System.arraycopy(words, 0, all, 1, words.length);
    all[words.length + 1] = "--records";
    all[words.length + 2] = file.toString();
    return CommandRun.of(all);
  }

  private static JsonNode json(String... words) throws Exception {
    String[] all = Arrays.copyOf(words, words.length + 1);
    all[words.length] = "--json";
    CommandRun run = records(all);
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    return answer;
  }

  @Test
  void listIsNewestFirstAndTakesFilters() throws Exception {
    JsonNode all = json("list");
    assertEquals(12, all.get("runs").size());
    assertEquals("<b>", all.get("runs").get(0).get("serial").asText());
    assertEquals("fail", all.get("runs").get(0).get("overruled_to").asText());
    assertEquals(1, json("list", "--outcome", "fail").get("runs").size());
    assertEquals(2, json("list", "--serial", "C-4", "--job", "spring").get("runs").size());
    assertEquals(0, json("list", "--until", "2026-11-20").get("runs").size());
    assertEquals(3, json("list", "--most", "3").get("runs").size());
    CommandRun text = records("list", "--outcome", "not-judged");
    assertTrue(text.out().contains("NOT JUDGED, overruled"), text.out());
    text.out().lines().forEach(line -> assertTrue(line.length() <= 80, line));
  }

  @Test
  void showHasTheCardAllAttemptsAndWhoOverruled() throws Exception {
    JsonNode shown = json("show", "5");
    assertEquals("C-4", shown.get("kept").get("serial").asText());
    assertEquals(2, shown.get("attempts").size());
    assertEquals(21.5, shown.get("kept").get("jig").get("temperature_c").asDouble());
    CommandRun text = records("show", "12");
    assertTrue(text.out().contains("FAIL by Grace: It hums."), text.out());
  }

  @Test
  void aCurveOverItselfIsZeroDecibelThroughout() throws Exception {
    Path page = folder.resolve("two.html");
    JsonNode compared = json("compare", "1", "2", "--report", page.toString());
    assertTrue(compared.get("points").size() > 100);
    for (JsonNode point : compared.get("points")) {
      assertEquals(0, point.get("level_db").asDouble(), 1e-12);
      assertEquals(0, point.get("phase_degrees").asDouble(), 1e-12);
    }
    assertClean(Files.readString(page));
    CommandRun none = records("compare", "1", "12");
    assertEquals(65, none.exitCode());
    assertTrue(none.err().contains("Run 12 has no curve"), none.err());
  }

  @Test
  void exportWritesTheCurveNumberForNumberAndRunsAsATable() throws Exception {
    ImpedanceCurve kept = SampleCards.vented();
    Path touchstone = folder.resolve("one.s1p");
    json("export", "--run", "1", "--out", touchstone.toString());
    assertEquals(
        kept.points().get(9).reactanceOhm(),
        TouchstoneFile.read(touchstone).points().get(9).reactanceOhm());
    Path table = folder.resolve("one.csv");
    json("export", "--run", "1", "--out", table.toString());
    assertEquals(kept.points().size(), ImpedanceTable.read(table).points().size());
    Path all = folder.resolve("all.csv");
    json("export", "--out", all.toString());
    List<String> lines = Files.readAllLines(all);
    assertEquals(1 + 11 * 3 + 1, lines.size());
    int columns = lines.get(0).split(",", -1).length;
    for (String line : lines) {
      assertEquals(columns, line.split(",", -1).length, line);
    }
    Path whole = folder.resolve("all.json");
    json("export", "--job", "spring", "--out", whole.toString());
    assertEquals(11, new ObjectMapper().readTree(whole.toFile()).get("runs").size());
    assertEquals(
        74, records("export", "--out", whole.toString()).exitCode(), "nothing is replaced");
    assertEquals(64, records("export", "--out", "all.s1p").exitCode());
  }

  @Test
  void yieldCountsBoxesAndNamesTheFault() throws Exception {
    JsonNode week = json("yield").get("weeks").get(0);
    assertEquals("2026-W48", week.get("week").asText());
    assertEquals(10, week.get("boxes").asInt());
    assertEquals(9, week.get("first_pass").asInt());
    assertEquals(10, week.get("final_pass").asInt());
    assertEquals(1, week.get("retests").asInt());
    assertEquals(1, week.get("not_judged").asInt());
    JsonNode fault = json("yield").get("faults").get(0);
    assertEquals("one driver reversed or drivers out of the box", fault.get("fault").asText());
    assertTrue(records("yield").out().contains("90.0 %"));
  }

  @Test
  void trendIsOfTheBoxesThatPassedAndAnUnknownFigureIsToldWhichThereAre() throws Exception {
    JsonNode trend = json("trend", "tuning", "--job", "spring");
    assertEquals(10, trend.get("points").size());
    assertEquals(34.02, trend.get("mean").asDouble(), 1e-9);
    CommandRun unknown = records("trend", "tunning");
    assertEquals(65, unknown.exitCode());
    assertTrue(unknown.err().contains("peak-1-hz"), unknown.err());
    assertTrue(records("trend", "tuning").out().contains("no tolerance"));
  }

  @Test
  void untestedAreThoseOfTheRangeThatNeverHadARun() throws Exception {
    JsonNode untested = json("untested", "--job", "spring", "C-8..C-12", "C-77");
    assertEquals(6, untested.get("asked").asInt());
    assertEquals("[\"C-11\",\"C-12\",\"C-77\"]", untested.get("untested").toString());
    assertEquals(65, records("untested", "--job", "winter", "1").exitCode());
    assertEquals(64, records("untested", "--job", "spring", "9..3").exitCode());
  }

  @Test
  void theOwnersPageStandsAloneAndEscapesWhatPeopleWrote() throws Exception {
    Path page = folder.resolve("owner.html");
    json("page", "--out", page.toString());
    String html = Files.readString(page);
    assertClean(html);
    assertTrue(html.contains("2026-W48") && html.contains("Trend of tuning"), html);
    assertTrue(html.contains("&lt;b&gt;") && !html.contains("<b>"), html);
    assertTrue(html.contains("overruled to fail by Grace: It hums."), html);
    json("page", "--out", page.toString(), "--job", "spring", "--built", "C-8..C-12");
    assertTrue(Files.readString(page).contains("2 of 5 serials"), "C-11 and C-12 had no run");
    assertEquals(64, records("page", "--out", page.toString(), "--built", "C-8").exitCode());
  }

  private static void assertClean(String html) {
    assertTrue(html.startsWith("<!DOCTYPE html>") && html.endsWith("</html>\n"));
    for (String never : List.of("NaN", "Infinity", "null", "<script", "http:/", "Optional")) {
      assertFalse(html.replace("http://www.w3.org/2000/svg", "").contains(never), never);
    }
  }

  /** On records of its own: it adds to them. */
  @Test
  void checkedOnTheVirtualJigThenJudgedAgainUnderOtherLimitsWithTheFirstVerdictKept()
      throws Exception {
    String own = folder.resolve("own").resolve("records.db").toString();
    CommandRun checked =
        CommandRun.of(
            "check",
            "--virtual",
            "wren-driver-reversed",
            "--plan",
            "wren",
            "--serial",
            "W-1",
            "--job",
            "wrens",
            "--operator",
            "Ada",
            "--temperature",
            "20",
            "--keep",
            folder.resolve("runs").toString(),
            "--records",
            own);
    assertEquals(1, checked.exitCode(), checked.err());
    Path other = folder.resolve("other.yaml");
    Files.writeString(
        other,
        """
        plan: 2
        name: Only the coils
        box: none
        drivers:
          - {names: [left, right], coils: [3.6 ohm]}
        wiring: {parallel: [left, {reversed: right}]}
        """);
    CommandRun again =
        CommandRun.of(
            "records", "judge-again", "--plan", other.toString(), "--records", own, "--json");
    assertEquals(0, again.exitCode(), again.err());
    JsonNode answer = new ObjectMapper().readTree(again.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), again.out());
    assertEquals(1, answer.get("judged").asInt());
    try (RecordStore store = RecordStore.openExisting(RecordPlace.of(own))) {
      var kept = store.run(1).orElseThrow();
      assertEquals(Decision.FAIL, kept.run().verdict().decision());
      assertEquals(2, kept.judgements().size());
      assertEquals(
          "Only the coils",
          kept.judgements()
              .get(1)
              .plan()
              .text()
              .lines()
              .skip(1)
              .findFirst()
              .orElseThrow()
              .substring(6));
      assertEquals(2, kept.judgements().get(1).limitsVersion());
      assertFalse(kept.run().captures().isEmpty(), "the raw capture is kept");
      assertEquals("wrens", kept.run().job());
    }
  }

  /** On records of its own: it adds to them. */
  @Test
  void overrulingStandsBesideTheVerdictWithNameAndReasonAndNeverAtAnotherBox() throws Exception {
    String own = folder.resolve("overruled.db").toString();
    try (RecordStore store = RecordStore.open(RecordPlace.of(own))) {
      store.append(SampleRuns.failed("spring", "C-1", SampleRuns.MORNING));
    }
    CommandRun other = overrule(own, "C-2", "pass", "It is fine.");
    assertEquals(64, other.exitCode());
    assertEquals(
        "conewise: Run 1 is of box C-1 and not of C-2, so nothing was overruled.",
        other.err().strip());
    assertEquals(64, overrule(own, "C-1", "pass", " ").exitCode());
    assertEquals(64, overrule(own, "C-1", "maybe", "It is fine.").exitCode());
    CommandRun done = overrule(own, "C-1", "pass", "It is fine.", "--json");
    assertEquals(0, done.exitCode(), done.err());
    JsonNode answer = new ObjectMapper().readTree(done.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), done.out());
    assertEquals("fail", answer.get("judged").asText());
    assertTrue(overrule(own, "C-1", "pass", "Again.").err().contains("stands at pass already"));
    try (RecordStore store = RecordStore.openExisting(RecordPlace.of(own))) {
      var kept = store.run(1).orElseThrow();
      assertEquals(Decision.FAIL, kept.run().verdict().decision());
      assertEquals("Overruled by Grace: It is fine.", kept.overrulings().get(0).words());
      assertEquals(1, kept.overrulings().size());
    }
  }

  private static CommandRun overrule(
      String records, String serial, String to, String reason, String... more) {
    List<String> words =
        new ArrayList<>(List.of("records", "overrule", "1", "--serial", serial, "--to", to));
    words.addAll(List.of("--by", "Grace", "--reason", reason, "--records", records));
    words.addAll(List.of(more));
    return CommandRun.of(words.toArray(String[]::new));
  }

  @Test
  void aVerdictThatTheRecordsCannotKeepIsNotShown() throws Exception {
    Path taken = Files.writeString(folder.resolve("taken"), "a file");
    CommandRun run =
        CommandRun.of(
            "check",
            "--virtual",
            "wren",
            "--plan",
            "wren",
            "--serial",
            "W-1",
            "--keep",
            folder.resolve("runs").toString(),
            "--records",
            taken.resolve("r.db").toString());
    assertEquals(74, run.exitCode(), run.err());
    assertEquals("", run.out());
    CommandRun none = CommandRun.of("records", "list", "--records", folder + "/none.db");
    assertEquals(65, none.exitCode());
    assertTrue(none.err().startsWith("conewise: There are no records at"), none.err());
  }
}
