package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Decision;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.CurveSoFar;
import conewise.jig.sweep.CurveSoFar.Standing;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.shift.Bench;
import conewise.station.shift.BenchClock;
import conewise.station.shift.BenchState;
import conewise.station.shift.JobShelf;
import conewise.station.shift.Keeper;
import conewise.station.shift.Phase;
import conewise.station.shift.PluggedJig;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/**
 * What the page is sent of a curve while its sweep runs, and what is left of a sweep that is cut.
 */
class GrowingCurveTest {
  private static final Pattern CURVE =
      Pattern.compile("<polyline class=\"(modulus[a-z -]*)\" points=\"([^\"]*)\"");

  private final List<BoxRun> kept = new CopyOnWriteArrayList<>();
  private Bench bench;
  private Halts halts;

  private void begin(boolean thorough) throws Exception {
    bench =
        new Bench(
            JobShelf.bundled(),
            new PluggedJig(),
            new Memory(),
            new Bench.Setting(thorough, Rates.USUAL, "bench", "of the test"),
            new BenchClock());
    halts = new Halts(bench);
  }

  @AfterEach
  void end() {
    halts.close();
    bench.close();
  }

  private final class Memory implements Keeper {
    @Override
    public Kept keep(BoxRun run) {
      kept.add(run);
      return new Kept(kept.size(), kept.size());
    }

    @Override
    public List<Overruling> overrulings(Kept kept) {
      return List.of();
    }

    @Override
    public void further(Further more) {
      throw new AssertionError("nothing further was asked for");
    }
  }

  private void measure() {
    bench.scan("heron");
    bench.scan("A-1");
    bench.scan("");
  }

  /**
   * What of a card tells its curve.
   *
   * @param line the style and the points of the drawn |Z|, empty where there is none
   */
  private record Sent(long version, String phase, String line, String caption, boolean verdict) {
    static Sent of(JsonNode event) {
      String card = event.get("card").asText();
      Matcher curve = CURVE.matcher(card);
      Matcher caption = Pattern.compile("<figcaption[^>]*>([^.]*)").matcher(card);
      return new Sent(
          event.get("version").asLong(),
          event.get("phase").asText(),
          curve.find() ? curve.group(1) + ":" + curve.group(2) : "",
          caption.find() ? caption.group(1) : "",
          card.contains("aria-label=\"Verdict\""));
    }

    int points() {
      return line.isEmpty() ? 0 : line.split(" ").length;
    }
  }

  /**
   * Curves of a sweep as the page's stream carries them, the verdict's last.
   *
   * @param every of so many curves one is waited for
   */
  private List<Sent> sentOfASweep(int every) throws Exception {
    List<Sent> sent = new ArrayList<>();
    try (StationServer server =
        new StationServer(
            bench, new StationServer.Place("127.0.0.1", 0, Optional.empty()), Optional.empty())) {
      URI events = URI.create("http://127.0.0.1:" + server.port() + "/events");
      Iterator<String> lines =
          HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(events).header("Accept", "text/event-stream").build(),
                  HttpResponse.BodyHandlers.ofLines())
              .body()
              .iterator();
      measure();
      for (BenchState state = null; state == null || state.phase() != Phase.VERDICT; ) {
        state = halts.next();
        if (curve(state).points().size() % every == 0 || state.phase() == Phase.VERDICT) {
          sent.add(eventOf(lines, state.version()));
        }
        halts.goOn();
      }
    }
    return sent;
  }

  private static Sent eventOf(Iterator<String> lines, long version) throws Exception {
    while (true) {
      String line = lines.next();
      if (line.startsWith("data:")) {
        Sent sent = Sent.of(new ObjectMapper().readTree(line.substring("data:".length())));
        if (sent.version() >= version) {
          assertEquals(version, sent.version(), "the bench was to stand still");
          return sent;
        }
      }
    }
  }

  private static void assertInOrder(List<Sent> sent) {
    for (int i = 1; i < sent.size(); i++) {
      assertTrue(sent.get(i).version() > sent.get(i - 1).version(), sent::toString);
      assertFalse(sent.get(i - 1).verdict(), () -> "a verdict before the end: " + sent);
    }
    Sent last = sent.get(sent.size() - 1);
    assertTrue(last.verdict(), last::toString);
    assertTrue(last.line().startsWith("modulus:"), last::toString);
  }

  @Test
  void aQuickSweepSendsNothingThenEightEstimatesThenTheMeasuredCurveThenTheVerdict()
      throws Exception {
    begin(false);
    List<Sent> sent = sentOfASweep(1);
    assertInOrder(sent);
    assertEquals(11, sent.size());
    assertEquals("No curve yet", sent.get(0).caption());
    assertEquals(0, sent.get(0).points());
    assertEquals(8, sent.subList(1, 9).stream().map(Sent::line).distinct().count());
    for (Sent estimate : sent.subList(1, 9)) {
      assertEquals("Dotted: so far", estimate.caption());
      assertTrue(estimate.line().startsWith("modulus so-far:"), estimate::toString);
      assertEquals("measuring", estimate.phase());
    }
    assertEquals("Solid: measured", sent.get(9).caption());
    assertTrue(sent.get(9).line().startsWith("modulus:"), sent::toString);
  }

  @Test
  void aThoroughSweepSendsEachToneMoreThenTheVerdict() throws Exception {
    begin(true);
    int every = 5;
    List<Sent> sent = sentOfASweep(every);
    assertInOrder(sent);
    assertEquals("No curve yet", sent.get(0).caption());
    for (int i = 1; i <= 8; i++) {
      Sent grown = sent.get(i);
      assertEquals(i * every, grown.points());
      assertEquals("Solid: measured so far", grown.caption());
      assertTrue(grown.line().startsWith("modulus:"), grown::toString);
    }
  }

  /** The operator stops it when the page shows a curve. */
  private BenchState stoppedAt(Standing standing, int points) throws Exception {
    measure();
    BenchState state = halts.next();
    while (curve(state).standing() != standing || curve(state).points().size() < points) {
      halts.goOn();
      state = halts.next();
    }
    bench.stop();
    halts.goOn();
    BenchState judging = halts.next();
    assertEquals(Phase.JUDGING, judging.phase());
    assertEquals(CurveSoFar.NONE, curve(judging));
    halts.goOn();
    return halts.next();
  }

  private static CurveSoFar curve(BenchState state) {
    return state.box().orElseThrow().soFar();
  }

  private void assertNothingIsLeft(BenchState cut) {
    var card = cut.box().orElseThrow().card().orElseThrow();
    assertEquals(Decision.NOT_JUDGED, card.verdict().decision());
    assertEquals(List.of(), card.verdict().checks());
    assertInstanceOf(Outcome.NoResult.class, card.measurement().curve());
    assertEquals(CurveSoFar.NONE, curve(cut));
    assertFalse(CURVE.matcher(BenchHtml.card(cut)).find(), BenchHtml.card(cut));
    assertEquals(1, kept.size());
    assertInstanceOf(Outcome.NoResult.class, kept.get(0).measurement().curve());
  }

  @Test
  void ofAQuickSweepThatIsStoppedNoCurveIsLeft() throws Exception {
    begin(false);
    assertNothingIsLeft(stoppedAt(Standing.ESTIMATED, 1));
  }

  @Test
  void ofAThoroughSweepThatIsStoppedNoCurveIsLeft() throws Exception {
    begin(true);
    assertNothingIsLeft(stoppedAt(Standing.GROWING, 20));
  }
}
