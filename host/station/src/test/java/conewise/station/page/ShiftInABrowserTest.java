package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.simulator.world.DemoWorld;
import conewise.station.card.SampleCards;
import conewise.station.report.JobCardPage;
import conewise.station.shift.BenchWatch;
import conewise.station.shift.Phase;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** A shift at the page in a real browser, by keyboard alone, on the virtual jig. */
class ShiftInABrowserTest {
  @TempDir private Path shelf;

  @BeforeEach
  void browserIsThere() {
    assumeTrue(
        Files.exists(Path.of(BrowserAtTheBench.DRIVER))
            && Files.exists(Path.of(BrowserAtTheBench.BROWSER)),
        "no Chromium with its driver here");
  }

  /** In points, the unit of a PDF (ISO 32000-1, 7.7.3.3): 1/72 inch. */
  private static final Pattern PAPER = Pattern.compile("/MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)\\]");

  private static final double CM = 72 / 2.54;

  private static void fitsOnOnePage(String pdf, double widthCm, double heightCm) {
    long pages = Pattern.compile("/Type\\s*/Page\\b").matcher(pdf).results().count();
    assertEquals(1, pages, "pages of " + widthCm + " by " + heightCm + " cm");
    Matcher paper = PAPER.matcher(pdf);
    assertTrue(paper.find(), "no size of paper is stated");
    assertEquals(widthCm * CM, Double.parseDouble(paper.group(1)), 1);
    assertEquals(heightCm * CM, Double.parseDouble(paper.group(2)), 1);
  }

  /** Chooses, scans and measures by what a scanner and the Enter key type. */
  private static void measured(BrowserAtTheBench at, String serial) {
    at.type(serial, Keys.ENTER);
    at.waitFor("#card .now", "Clip on");
    at.waitFor("#card h1", serial);
    at.type(Keys.ENTER);
  }

  @Test
  void aWholeShiftByKeyboardAlone() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.jig.calibrate();
      at.waitFor("#jig", "on");
      assertEquals(List.of(), at.inaccessible());
      assertEquals(List.of(), at.looked("choose-a-job"));
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      good(at);
      reversedAndReworked(at);
      pulledInMidSweep(at);
      notKept(at);
      wrongJob(at);
      at.server.close();
      at.waitFor("#jig.away", "does not answer");
      at.picture("program-stopped");
    }
  }

  private static void good(BrowserAtTheBench at) throws Exception {
    at.type("A-1", Keys.ENTER);
    at.waitFor("#card .now", "Clip on");
    assertEquals(List.of(), at.looked("clip-on"));
    at.type(Keys.ENTER);
    at.waitFor("#card .word", "PASS");
    at.waitFor("#said", "Box A-1. PASS");
    // The band comes right after the verdict.
    at.waitFor("#card figcaption", "95 of 100");
    assertEquals(List.of(), at.looked("passed"));
    assertEquals(List.of(), at.inaccessible());
    fitsOnOnePage(at.printed("/card", 21, 29.7), 21, 29.7);
    fitsOnOnePage(at.printed("/label", 21, 29.7), 6.2, 4);
  }

  private void reversedAndReworked(BrowserAtTheBench at) throws Exception {
    at.put(DemoWorld.HERON_DRIVER_REVERSED);
    // A new number takes the old verdict off the card at once.
    at.type("A-2", Keys.ENTER);
    at.waitFor("#card h1", "A-2");
    assertFalse(at.card().contains("PASS"), at.card());
    at.type(Keys.ENTER);
    at.waitFor("#card .word", "FAIL");
    assertEquals("A-2", at.browser.findElement(By.cssSelector("#card h1")).getText());
    assertTrue(at.card().contains("backwards"), at.card());
    at.waitFor("#card figcaption", "Dashed: what the named fault would show");
    assertEquals(List.of(), at.looked("failed"));
    assertEquals(List.of(), at.inaccessible());
    fitsOnOnePage(at.printed("/card", 21, 29.7), 21, 29.7);
    fitsOnOnePage(at.printed("/card", 21.59, 27.94), 21.59, 27.94);

    Path most =
        Files.writeString(shelf.resolve("m.html"), JobCardPage.write(SampleCards.fullest()));
    fitsOnOnePage(at.printed(most.toUri().toString(), 21, 29.7), 21, 29.7);
    fitsOnOnePage(at.printed(most.toUri().toString(), 21.59, 27.94), 21.59, 27.94);

    at.put(DemoWorld.HERON);
    measured(at, "A-2");
    at.waitFor("#card .kind", "attempt 2");
    at.waitFor("#card .word", "PASS");
    assertEquals(2, at.store.attempts("heron", "A-2"));
  }

  private static void pulledInMidSweep(BrowserAtTheBench at) throws Exception {
    Runnable off =
        at.bench.watch(
            state -> {
              if (state.phase() == Phase.MEASURING && state.box().orElseThrow().fraction() > 0.7) {
                at.jig.pull();
              }
            });
    measured(at, "A-3");
    at.waitFor("#card .word", "NOT JUDGED");
    off.run();
    at.waitFor("#jig.away", "");
    at.picture("pulled-in-mid-sweep");
    at.type("A-3", Keys.ENTER);
    at.waitFor("#card .word", "NO JIG");
    assertEquals(List.of(), at.looked("no-jig"));
    assertEquals(List.of(), at.inaccessible());
    at.jig.plug();
    at.waitFor("#card .now", "Clip on");
  }

  private static void notKept(BrowserAtTheBench at) throws Exception {
    at.diskFull = true;
    at.type(Keys.ENTER);
    at.waitFor("#card .word", "NOT KEPT");
    assertFalse(at.card().contains("PASS"), at.card());
    at.picture("not-kept");
    at.diskFull = false;
    at.type(Keys.ENTER);
    at.waitFor("#card .word", "PASS");
    assertEquals(2, at.store.attempts("heron", "A-3"));
    assertEquals(5, at.browser.findElements(By.cssSelector("#today li")).size());
  }

  @Test
  void afterASleepTheOldVerdictIsGoneAndTheNextMeasurementGoesOn() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.jig.calibrate();
      at.clock.passes(Duration.ofHours(9));
      at.waitFor("#card .word", "SLEPT");
      at.waitFor("#card", "Which job?");
      assertEquals(List.of(), at.looked("slept-before-a-job"));
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      measured(at, "A-1");
      at.waitFor("#card .word", "PASS");

      at.clock.passes(Duration.ofHours(13).plusMinutes(5));
      at.waitFor("#card .word", "SLEPT");
      at.waitFor("#said", "The computer slept for 13 h 5 min");
      assertEquals("A-1", at.browser.findElement(By.cssSelector("#card h1")).getText());
      assertFalse(at.card().contains("PASS"), at.card());
      assertEquals(List.of(), at.looked("slept"));
      assertEquals(List.of(), at.inaccessible());

      Runnable off =
          at.bench.watch(
              state -> {
                if (state.phase() == Phase.MEASURING
                    && state.slept().isEmpty()
                    && at.clock.instant().isBefore(Instant.parse("2026-11-27T12:00:00Z"))) {
                  at.clock.passes(Duration.ofDays(1));
                }
              });
      at.type(Keys.ENTER);
      at.waitFor("#card .headline", "slept for 24 h");
      off.run();
      at.waitFor("#card .kind", "attempt 2");
      assertEquals(List.of(), at.looked("slept-in-mid-sweep"));
      assertEquals(List.of(), at.inaccessible());
      at.type(Keys.ENTER);
      at.waitFor("#card .kind", "attempt 3");
      at.waitFor("#card .word", "PASS");
      assertFalse(at.card().contains("SLEPT"), at.card());
      assertEquals(3, at.store.attempts("heron", "A-1"));
      screenThatSlept(at);
    }
  }

  /** The screen sleeps while the bench goes on; its line to the bench breaks without a sign. */
  private static void screenThatSlept(BrowserAtTheBench at) throws Exception {
    at.browser.executeScript("events.close();");
    at.bench.scan("A-9");
    new BenchWatch(at.bench, 20)
        .until(state -> state.box().map(box -> box.serial().equals("A-9")).orElse(false));
    assertTrue(at.card().contains("A-1"), at.card());
    at.browser.executeScript(
        "const now = Date.now.bind(Date); Date.now = () => now() + 3600e3;"
            + "document.dispatchEvent(new Event('visibilitychange'));");
    assertFalse(at.card().contains("A-1"), at.card());
    at.waitFor("#card h1", "A-9");
    at.waitFor("#card .now", "Clip on");
    at.waitFor("#jig.answers", "virtual jig");
  }

  private static void wrongJob(BrowserAtTheBench at) throws Exception {
    at.type("dipper", Keys.ENTER);
    at.waitFor("#card .now", "Scan the box");
    measured(at, "D-1");
    at.waitFor("#card .headline", "this is not box Dipper");
    assertEquals("NOT JUDGED", at.browser.findElement(By.cssSelector("#card .word")).getText());
    at.picture("wrong-job");
    assertEquals(List.of(), at.inaccessible());
  }
}
