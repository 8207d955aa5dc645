package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.simulator.world.DemoWorld;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
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
  void anOpenChallengeSaysWhichArtefactIsMissingUntilBothCameOutAsTheyMust() throws Exception {
    Challenge challenge =
        new Challenge(
            new Artefact("GOLDEN-1", Path.of("heron"), true, Optional.empty()),
            new Artefact("RED-1", Path.of("heron"), false, Optional.of("wired backwards")));
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720, false, Optional.of(challenge))) {
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
