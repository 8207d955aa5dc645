package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.analysis.judgement.Decision;
import conewise.simulator.world.DemoWorld;
import conewise.station.card.SampleCards;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import conewise.station.report.JobCardPage;
import conewise.station.shift.BenchWatch;
import conewise.station.shift.Phase;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WindowType;

/** What the page shows where a shift does not run smoothly, in a real browser. */
class StatesInABrowserTest {
  @TempDir private Path shelf;

  @BeforeEach
  void browserIsThere() {
    assumeTrue(
        Files.exists(Path.of(BrowserAtTheBench.DRIVER))
            && Files.exists(Path.of(BrowserAtTheBench.BROWSER)),
        "no Chromium with its driver here");
  }

  private static void looksRight(BrowserAtTheBench at, String picture) throws Exception {
    assertEquals(List.of(), at.looked(picture));
    assertEquals(List.of(), at.inaccessible(), picture);
  }

  @Test
  void afterASleepTheOldVerdictIsGoneAndTheNextMeasurementGoesOn() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.jig.calibrate();
      at.clock.passes(Duration.ofHours(9));
      at.waitFor("#card .word", "SLEPT");
      at.waitFor("#card", "Which job?");
      looksRight(at, "slept-before-a-job");
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      at.measured("A-1");
      at.waitFor("#card .word", "PASS");

      at.clock.passes(Duration.ofHours(13).plusMinutes(5));
      at.waitFor("#card .word", "SLEPT");
      at.waitFor("#said", "The computer slept for 13 h 5 min");
      assertEquals("A-1", at.browser.findElement(By.cssSelector("#card h1")).getText());
      assertFalse(at.card().contains("PASS"), at.card());
      looksRight(at, "slept");

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
      looksRight(at, "slept-in-mid-sweep");
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

  @Test
  void noiseAndAVoltageHaveASignOfTheirOwnAndARunningSweepSaysHowFarItIs() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.jig.calibrate();
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      Runnable goOn = at.held(0.6);
      at.measured("A-1");
      at.waitFor("#card .now", "Measuring");
      at.waitFor("#card .how", "playing all tones at once");
      looksRight(at, "sweeping");
      goOn.run();
      at.waitFor("#card .word", "PASS");
      assertFalse(at.card().contains("NOISE"), at.card());

      at.jig.jumping();
      at.bench.meetJigAgain();
      at.measured("A-2");
      at.waitFor("#card .noise .word", "NOISE");
      assertEquals("NOT JUDGED", at.browser.findElement(By.cssSelector("#card .word")).getText());
      at.waitFor("#said", "Noise.");
      looksRight(at, "noise");

      at.put(DemoWorld.HERON);
      at.jig.noisy(60);
      at.bench.meetJigAgain();
      at.measured("A-2");
      at.waitFor("#card .kind", "attempt 2");
      at.waitFor("#card .voltage .word", "VOLTAGE");
      looksRight(at, "sound-or-noise-at-rest");

      at.put(DemoWorld.HERON);
      at.measured("A-2");
      at.waitFor("#card .kind", "attempt 3");
      at.waitFor("#card .word", "PASS");
      assertFalse(at.card().contains("NOISE"), at.card());
    }
  }

  @Test
  void anOverrulingStandsBesideTheVerdictOnTheCardTheReportAndTheLabel() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.jig.calibrate();
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      String longNumber = "A-" + "1234567890".repeat(6);
      at.measured(longNumber);
      at.waitFor("#card .word", "PASS");
      overrule(at, Decision.FAIL, "Grace", "It hums.");
      at.waitFor("#card .overruled", "To FAIL. Overruled by Grace: It hums.");
      at.waitFor("#said", "PASS. To FAIL. Overruled by Grace: It hums.");
      assertEquals("PASS", at.browser.findElement(By.cssSelector("#card .word")).getText());
      at.waitFor("#card .action", "Set the box aside");
      at.waitFor("#said", "Set the box aside");
      looksRight(at, "overruled");
      assertEquals(true, inSight(at, "#card .overruled"), "the overruling is out of sight");
      paper(at, "/card", ".say", "To FAIL. Overruled by Grace: It hums.");
      paper(at, "/label", ".overruled", "To FAIL. Overruled by Grace: It hums.");
      at.printsOnOnePage("/card", 21, 29.7);
      at.printsOnOnePage("/label", 21, 29.7, 6.2, 4);

      String name = "Wilhelmina ".repeat(7) + "xyz";
      overrule(
          at, Decision.PASS, name, "The vent whistles at the tuning. ".repeat(30) + "It does.");
      at.waitFor("#card .overruled", "Overruled by " + name);
      at.waitFor("#card .action", "Put its label on");
      paper(at, "/label", ".overruled", "Overruled by " + name + "; the reason stands on the");
      paper(at, "/card", ".say", "The vent whistles");
      at.printsOnOnePage("/card", 21, 29.7);
      at.printsOnOnePage("/label", 21, 29.7, 6.2, 4);

      at.diskFull = true;
      at.browser.get(at.address("/label"));
      at.waitFor("body", "No paper, because it cannot be read whether somebody has overruled");
    }
  }

  @Test
  void theFullestReportWithTheLongestReasonPrintsOnOnePage() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      String reason = "Overruled by Grace: " + "It hums at the tuning. ".repeat(43);
      Path most =
          Files.writeString(
              shelf.resolve("m.html"), JobCardPage.write(SampleCards.fullest(), List.of(reason)));
      at.printsOnOnePage(most.toUri().toString(), 21, 29.7);
      at.printsOnOnePage(most.toUri().toString(), 21.59, 27.94);
    }
  }

  private static void overrule(BrowserAtTheBench at, Decision to, String by, String reason)
      throws Exception {
    KeptRun kept = at.store.run(1).orElseThrow();
    at.store.overrule(
        kept, Overruling.of(kept, kept.run().serial(), at.clock.instant(), by, to, reason));
  }

  private static Object inSight(BrowserAtTheBench at, String what) {
    return at.browser.executeScript(
        "return document.querySelector(arguments[0]).getBoundingClientRect().bottom"
            + " <= document.getElementById('card').getBoundingClientRect().bottom;",
        what);
  }

  /** Opens a paper in a window of its own; what it says must all be on it. */
  private static void paper(BrowserAtTheBench at, String path, String where, String words)
      throws Exception {
    String here = at.browser.getWindowHandle();
    at.browser.switchTo().newWindow(WindowType.TAB);
    at.browser.get(at.address(path));
    at.waitFor(where, words);
    at.picture("overruled" + path.replace('/', '-'));
    assertEquals(
        true,
        at.browser.executeScript(
            "const all = document.querySelector('main');"
                + "return all.scrollHeight <= all.clientHeight + 1;"),
        path + " is cut off");
    at.browser.close();
    at.browser.switchTo().window(here);
  }

  @Test
  void anOpenChallengeSaysWhichArtefactIsMissingUntilBothCameOutAsTheyMust() throws Exception {
    Challenge challenge =
        new Challenge(
            new Artefact("GOLDEN-1", Path.of("heron"), true, Optional.empty()),
            new Artefact("RED-1", Path.of("heron"), false, Optional.of("wired backwards")));
    try (BrowserAtTheBench at =
        new BrowserAtTheBench(shelf, 1280, 720, false, Optional.of(challenge))) {
      at.jig.calibrate();
      at.waitFor("#card .remark", "GOLDEN-1, which must pass");
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      at.measured("A-1");
      at.waitFor("#card .word", "NOT JUDGED");
      at.waitFor("#card .headline", "GOLDEN-1, which must pass");
      at.waitFor("#card .fixture .word", "FIXTURE");
      looksRight(at, "challenge-open-good-missing");

      at.measured("GOLDEN-1");
      at.waitFor("#card .remark", "RED-1, which must fail");
      at.type("A-1", Keys.ENTER);
      at.waitFor("#card .remark", "RED-1, which must fail");
      looksRight(at, "challenge-open-bad-missing");

      at.put(DemoWorld.HERON_DRIVER_REVERSED);
      at.measured("RED-1");
      at.waitFor("#card .remark", "the challenge is met");
      at.put(DemoWorld.HERON);
      at.measured("A-1");
      at.waitFor("#card .kind", "attempt 2");
      at.waitFor("#card .word", "PASS");
    }
  }
}
