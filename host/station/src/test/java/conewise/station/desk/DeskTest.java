package conewise.station.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.judgement.Decision;
import conewise.station.calculation.BadEntryException;
import conewise.station.calculation.Calculation;
import conewise.station.calculation.Calculations;
import conewise.station.calculation.Entry;
import conewise.station.calculation.Worked;
import conewise.station.calculation.WorkedText;
import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import conewise.station.records.BoxRun;
import conewise.station.records.KeptRun;
import conewise.station.records.PlanText;
import conewise.station.records.SampleRuns;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The pages as who asks for their addresses gets them. */
class DeskTest {
  private static final Instant NOW = Instant.parse("2026-11-26T09:30:00Z");

  @TempDir static Path folder;
  private static RecordStore store;
  private static Desk desk;

  /** 60 boxes that passed, one that failed first, one whose name is a trap for pages. */
  @BeforeAll
  static void keepAFewRuns() throws Exception {
    store = RecordStore.open(RecordPlace.of(folder.resolve("records.db").toString()));
    desk = new Desk(Optional.of(store), Clock.fixed(NOW, ZoneOffset.UTC));
    PlanText heron;
    try (var in = DeskTest.class.getResourceAsStream("/conewise/plans/heron.yaml")) {
      heron = PlanText.of("heron.yaml", in.readAllBytes());
    }
    Instant at = SampleRuns.MORNING;
    store.append(run(SampleCards.failed(), "spring", "C-1", heron, at));
    for (int i = 1; i <= 60; i++) {
      at = at.plusSeconds(300);
      store.append(run(SampleCards.passed(), "spring", "C-" + i, heron, at));
    }
    store.append(
        run(SampleCards.notJudged(), "<i>autumn", "<script>\"'&", heron, at.plusSeconds(9)));
  }

  private static BoxRun run(
      JobCard card, String job, String serial, PlanText plan, Instant finished) {
    return SampleRuns.withoutCaptures(SampleRuns.run(card, job, serial, plan, finished));
  }

  @AfterAll
  static void close() {
    store.close();
  }

  private static String page(int status, String address) {
    String[] parts = address.split("\\?", 2);
    Reply.Page page =
        assertInstanceOf(
            Reply.Page.class,
            desk.page(parts[0], parts.length < 2 ? Map.of() : fields(parts[1])),
            address);
    assertEquals(status, page.status(), page.html());
    assertTrue(page.html().startsWith("<!DOCTYPE html>"), address);
    for (String never : List.of("<script", "<i>autumn", "NaN", "Optional", "null", "Exception")) {
      assertFalse(page.html().contains(never), address + ": " + never);
    }
    return page.html();
  }

  private static Map<String, List<String>> fields(String query) {
    Map<String, List<String>> fields = new LinkedHashMap<>();
    for (String pair : query.split("&", -1)) {
      String[] sides = pair.split("=", 2);
      fields
          .computeIfAbsent(sides[0], name -> new ArrayList<>())
          .add(URLDecoder.decode(sides[1], StandardCharsets.UTF_8));
    }
    return fields;
  }

  private static int count(String html, String part) {
    return html.split(Pattern.quote(part), -1).length - 1;
  }

  private static String link(String html, String words) {
    Matcher link = Pattern.compile("href=\"([^\"]*)\">" + words + "<").matcher(html);
    assertTrue(link.find(), words + " in " + html);
    return link.group(1).replace("&amp;", "&");
  }

  @Test
  void theListShowsTheNewestFiftyAndLeadsToTheOlderOnesUntilAllWereSeen() {
    String first = page(200, "/records");
    assertEquals(50, count(first, "<th scope=\"row\">"));
    assertTrue(first.contains("&lt;script&gt;&quot;&#39;&amp;"), first);
    String second = page(200, link(first, "Older ones"));
    assertEquals(12, count(second, "<th scope=\"row\">"));
    assertFalse(second.contains("Older ones"), second);
    assertEquals("/records", link(second, "The newest"));
  }

  @ParameterizedTest
  @CsvSource({
    "/records?serial=C-1, 2",
    "/records?serial=C-1&outcome=fail, 1",
    "/records?job=summer, 0",
    "/records?since=2026-11-24, 0",
    "/records?until=2026-11-23&job=%3Ci%3Eautumn, 1",
    "/records?since=2026-11-23&outcome=not-judged&serial=+, 1"
  })
  void filtersNarrowTheList(String address, int rows) {
    assertEquals(rows, count(page(200, address), "<th scope=\"row\">"));
  }

  @Test
  void filtersStayWhenTheListGoesOn() {
    String next = link(page(200, "/records?job=spring"), "Older ones");
    assertTrue(next.startsWith("/records?job=spring&before="), next);
    assertTrue(page(200, next).contains("value=\"spring\""));
  }

  @ParameterizedTest
  @CsvSource({
    "/records?since=yesterday, since-wrong",
    "/records?outcome=good, outcome-wrong",
    "/records?since=2026-11-24&until=2026-11-20, until-wrong",
    "/records/owner?built=C-1..C-9, job-wrong",
    "/records/owner?job=summer, job-wrong",
    "/records/owner?job=spring&built=C-9..C-1, built-wrong",
    "/work-out/vent?tuning=34Hz, volume-wrong",
    "/work-out/vent?volume=60&tuning=34Hz&diameter=10cm, volume-wrong",
    "/work-out/vent?volume=60l&tuning=300Hz&diameter=10cm, tuning-wrong",
    "/work-out/vent?volume=60l&diameter=10cm, tuning-wrong",
    "/work-out/load?wiring=a&rated=4ohm&rated=b%3D8ohm, rated-wrong",
    "/work-out/coils?drivers=9&each=8ohm&wanted=4ohm, drivers-wrong",
    "/work-out/air?tuning=34Hz&from=30+C&to=20+C, to-wrong",
    "/work-out/delay?phase=90deg, frequency-wrong",
    "/work-out/two-sources?distance=1m, frequency-wrong",
    "/work-out/lead?gauge=thick&length=10m&load=4ohm, gauge-wrong"
  })
  void whatCannotBeReadIsSaidInOneSentenceBesideItsField(String address, String field) {
    String html = page(400, address);
    assertEquals(1, count(html, "class=\"wrong"), html);
    assertTrue(html.contains("<p class=\"wrong\" id=\"" + field + "\">"), html);
    assertTrue(html.contains("aria-describedby=\"" + field), html);
    Matcher said = Pattern.compile("id=\"" + field + "\">([^<]*)</p>").matcher(html);
    assertTrue(said.find() && said.group(1).endsWith("."), html);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/records/run/999",
        "/records/run/x",
        "/records/run/1/2",
        "/records/nothing",
        "/work-out/x",
        "/records/run/99999999999999999999",
        "/work-out/vent/x",
        "/records/run"
      })
  void whatIsNotThereIsSaid(String address) {
    assertEquals(1, count(page(404, address), "class=\"wrong alone\""));
  }

  @Test
  void aRunHasItsCardItsAttemptsWhatWasSeenAndItsCurve() {
    String html = page(200, "/records/run/2");
    assertTrue(html.contains("<h1>C-1</h1>") && html.contains("attempt 2"), html);
    assertTrue(html.contains("<svg") && html.contains("Checks"), html);
    assertTrue(html.contains("expected by the plan"), html);
    assertTrue(html.contains("What people saw") && html.contains("CAL-1"), html);
    assertEquals("/records/run/1", link(html, "1"));
    assertEquals("/records/compare?run=2&run=1", link(html, "Compare with attempt 1"));
    String card = page(200, "/records/run/2/card");
    assertTrue(card.contains("Conewise job card"), card);
    assertTrue(card.contains("expected by the plan"), card);
  }

  @Test
  void twoCurvesAreComparedAndWhatCannotBeIsSaid() {
    String same = page(200, "/records/compare?run=3&run=4");
    assertTrue(same.contains("Levels differ most at") && same.contains("+0.00 dB"), same);
    assertTrue(page(400, "/records/compare?run=3&run=62").contains("Run 62 has no curve"));
    assertTrue(page(400, "/records/compare?run=3").contains("Two runs are compared; 1 were"));
    assertTrue(page(400, "/records/compare?run=3&run=x").contains("There is no run x"));
    assertTrue(page(200, "/records/compare").contains("<form"));
  }

  @Test
  void theOwnersPageHasWhatTheCommandWrites() {
    String html = page(200, "/records/owner?job=spring&built=C-58..C-62");
    assertTrue(html.contains("2026-W48") && html.contains("Trend of tuning"), html);
    assertTrue(html.contains("2 of 5 serials that were named:"), html);
    assertTrue(html.contains("C-61, C-62"), html);
    assertEquals("/records/run/2", link(html, "C-1"));
  }

  private static Map<String, List<String>> form(String serial, String seen, String to) {
    return new LinkedHashMap<>(
        Map.of(
            "serial", List.of(serial),
            "overrulings-seen", List.of(seen),
            "to", List.of(to),
            "by", List.of(" Grace "),
            "reason", List.of("A dent\r\nat the <b>corner.")));
  }

  private static String refused(long run, Map<String, List<String>> form) {
    Reply.Page page = assertInstanceOf(Reply.Page.class, desk.take("/records/run/" + run, form));
    assertEquals(400, page.status());
    assertEquals(1, count(page.html(), "class=\"wrong"), page.html());
    return page.html();
  }

  @Test
  void overrulingStandsBesideTheVerdictForEverAndIsRefusedWithoutNameOrReason() throws Exception {
    for (String field : List.of("by", "reason")) {
      Map<String, List<String>> form = form("C-9", "0", "fail");
      form.put(field, List.of("  "));
      assertTrue(refused(10, form).contains("id=\"" + field + "-wrong\""));
    }
    Map<String, List<String>> undecided = form("C-9", "0", "fail");
    undecided.remove("to");
    refused(10, undecided);
    assertEquals(List.of(), store.run(10).orElseThrow().overrulings());

    Reply done = desk.take("/records/run/10", form("C-9", "0", "fail"));
    assertEquals(new Reply.Elsewhere("/records/run/10#top"), done);
    KeptRun kept = store.run(10).orElseThrow();
    assertEquals(Decision.PASS, kept.run().verdict().decision());
    assertEquals("Overruled by Grace: A dent at the <b>corner.", kept.overrulings().get(0).words());
    assertEquals(NOW, kept.overrulings().get(0).at());
    String beside = "Overruled by Grace: A dent at the &lt;b&gt;corner.";
    String html = page(200, "/records/run/10");
    assertTrue(html.contains(beside) && html.contains("<p class=\"word\">PASS</p>"), html);
    for (String address :
        List.of("/records/run/10/card", "/records?serial=C-9", "/records/owner?job=spring")) {
      assertTrue(
          page(200, address)
              .toLowerCase(java.util.Locale.ROOT)
              .contains("by grace: a dent at the &lt;b&gt;corner."),
          address);
    }
    assertTrue(
        refused(10, form("C-9", "0", "pass")).contains("since you opened its page"),
        "what was sent twice is kept once");
    assertTrue(refused(10, form("C-9", "1", "fail")).contains("stands at fail already"));
  }

  @Test
  void aBoxWhoseNumberIsNotTheOneShownIsNeverOverruled() throws Exception {
    String html = refused(12, form("C-12", "0", "fail"));
    assertTrue(html.contains("Run 12 is of box C-11 and not of C-12"), html);
    assertEquals(List.of(), store.run(12).orElseThrow().overrulings());
    assertEquals(List.of(), store.run(13).orElseThrow().overrulings());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "load?wiring=parallel%3A+%5Ba%2C+b%5D&rated=8ohm&rated=b%3D4ohm&dc=6ohm&amplifier=4ohm",
        "coils?drivers=3&each=8ohm&wanted=12ohm",
        "vent?volume=2+cu+ft&tuning=34Hz&diameter=4in&displacement=0.3l&inside=flush",
        "air?tuning=34Hz",
        "delay?distance=1m&frequency=80Hz",
        "two-sources?second=-3dB",
        "lead?gauge=14AWG&length=10m&load=4ohm"
      })
  void aCalculationsAddressShowsTheCommandsFiguresWithCautionsAndSources(String address)
      throws BadEntryException {
    String html = page(200, "/work-out/" + address);
    String[] parts = address.split("\\?", 2);
    Calculation calculation =
        Calculations.all().stream()
            .filter(each -> each.name().equals(parts[0]))
            .findFirst()
            .orElseThrow();
    Worked worked = calculation.work(fields(parts[1]));
    for (String line : WorkedText.write(new Worked(worked.rows(), Optional.empty(), List.of()))) {
      String value = line.substring(42).replaceAll(" \\(.*", "");
      assertTrue(html.contains("<td class=\"value\">" + value + "</td>"), value + " in " + html);
    }
    for (String sentence : worked.remarks()) {
      assertTrue(html.contains(sentence.replace("'", "&#39;")), sentence);
    }
    assertFalse(calculation.sources().isEmpty());
    for (String sentence : calculation.sources()) {
      assertTrue(html.contains(sentence.replace("'", "&#39;")), sentence);
    }
    for (Entry entry : calculation.entries()) {
      assertEquals(1, count(html, " name=\"" + entry.name() + "\""), entry.name());
      assertEquals(1, count(html, "<label for=\"" + entry.name() + "\">"), entry.name());
    }
  }

  @Test
  void whatIsAsGoodAsNotWrittenIsLeftOutOfTheAddressThatIsShared() {
    Reply reply =
        desk.page(
            "/work-out/load",
            fields("wiring=+a&rated=4ohm%0D%0A+%0D%0Aa%3D8ohm&dc=&amplifier=&token=b1a5"));
    assertEquals(new Reply.Elsewhere("/work-out/load?wiring=a&rated=4ohm&rated=a%3D8ohm"), reply);
    assertTrue(page(400, "/work-out/load?wiring=&rated=").contains("wiring is missing"));
    assertTrue(page(200, "/work-out/two-sources?second=").contains("id=\"answer\""));
    assertFalse(page(200, "/work-out/two-sources").contains("id=\"answer\""));
  }

  @Test
  void aBenchWithoutRecordsSaysSoAndStillWorksThingsOut() {
    Desk bare = new Desk(Optional.empty(), Clock.fixed(NOW, ZoneOffset.UTC));
    Reply.Page none = (Reply.Page) bare.page("/records", Map.of());
    assertEquals(404, none.status());
    assertTrue(none.html().contains("This bench keeps no records."));
    assertEquals(200, ((Reply.Page) bare.page("/work-out", Map.of())).status());
  }
}
