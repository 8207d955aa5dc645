package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.jig.sweep.CurveSoFar.Standing;
import conewise.station.shift.BenchState;
import conewise.station.shift.Phase;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** The curve while its sweep runs, in a real browser. */
class GrowingCurveInABrowserTest {
  @TempDir private Path shelf;

  @BeforeEach
  void browserIsThere() {
    assumeTrue(
        Files.exists(Path.of(BrowserAtTheBench.DRIVER))
            && Files.exists(Path.of(BrowserAtTheBench.BROWSER)),
        "no Chromium with its driver here");
  }

  private static void begin(BrowserAtTheBench at) throws Exception {
    at.jig.calibrate();
    at.type("heron", Keys.ENTER);
    at.waitFor("#card .now", "Scan the box");
    at.type("A-1", Keys.ENTER);
    at.waitFor("#card .now", "Clip on");
  }

  /** Of the drawn |Z|; empty where there is none. */
  private static String line(BrowserAtTheBench at) {
    return String.valueOf(
        at.browser.executeScript(
            "const line = document.querySelector('#card polyline.modulus');"
                + "return line ? line.getAttribute('points') : '';"));
  }

  private static void assertNoVerdict(BrowserAtTheBench at) {
    assertEquals(List.of(), at.browser.findElements(By.cssSelector("#card .word")));
    assertEquals("Box A-1. Measuring.", at.browser.findElement(By.id("said")).getText());
  }

  /** A sign of progress, then dotted curves, then the measured one with its verdict. */
  @Test
  void aQuickSweepIsSeenGrowing() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      begin(at);
      List<String> seen = new ArrayList<>();
      try (Halts halts = new Halts(at.bench)) {
        at.type(Keys.ENTER);
        BenchState state = halts.next();
        assertEquals(Standing.NOTHING, standing(state));
        at.waitFor("#card figcaption", "No curve yet");
        assertEquals("", line(at));
        assertTrue(at.browser.findElement(By.cssSelector("#card progress")).isDisplayed());
        assertEquals(List.of(), at.looked("quick-sweep-0"));
        for (int estimate = 1; estimate <= 8; estimate++) {
          halts.goOn();
          state = halts.next();
          assertEquals(Standing.ESTIMATED, standing(state));
          seen.add(otherLine(at, seen));
          at.waitFor("#card figcaption", "Dotted: so far");
          assertNoVerdict(at);
          if (estimate == 1 || estimate == 5) {
            assertEquals(List.of(), at.looked("quick-sweep-" + estimate));
          }
        }
        assertEquals(List.of(), at.inaccessible());
      }
      at.waitFor("#card .word", "PASS");
      assertEquals(List.of(), at.browser.findElements(By.cssSelector("#card .so-far")));
      assertEquals(8, new HashSet<>(seen).size());
    }
  }

  /** Waits until a curve is drawn that was not seen before. */
  private static String otherLine(BrowserAtTheBench at, List<String> seen) {
    return at.waitUntil(
        "another curve than before",
        () -> {
          String line = line(at);
          return line.isEmpty() || seen.contains(line) ? null : line;
        });
  }

  private static Standing standing(BenchState state) {
    return state.box().orElseThrow().soFar().standing();
  }

  @Test
  void aThoroughSweepIsSeenGrowing() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720, true, Optional.empty())) {
      begin(at);
      List<Integer> seen = new ArrayList<>();
      try (Halts halts = new Halts(at.bench)) {
        at.type(Keys.ENTER);
        for (BenchState state = halts.next(); state.phase() != Phase.VERDICT; ) {
          int tones = state.box().orElseThrow().soFar().points().size();
          if (standing(state) == Standing.GROWING && List.of(6, 25, 50).contains(tones)) {
            at.waitUntil("tones", () -> line(at).strip().split(" ").length == tones ? "" : null);
            at.waitFor("#card figcaption", "measured so far");
            assertNoVerdict(at);
            assertEquals(List.of(), at.looked("thorough-sweep-" + tones));
            seen.add(tones);
          }
          halts.goOn();
          state = halts.next();
        }
        halts.goOn();
        at.waitFor("#card .word", "PASS");
      }
      assertEquals(List.of(6, 25, 50), seen);
    }
  }
}
