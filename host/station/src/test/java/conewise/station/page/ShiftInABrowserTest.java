package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.simulator.world.DemoWorld;
import conewise.station.card.SampleCards;
import conewise.station.report.JobCardPage;
import conewise.station.shift.Phase;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
    at.printsOnOnePage("/card", 21, 29.7);
    at.printsOnOnePage("/label", 21, 29.7, 6.2, 4);
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
    at.printsOnOnePage("/card", 21, 29.7);
    at.printsOnOnePage("/card", 21.59, 27.94);

    Path most =
        Files.writeString(shelf.resolve("m.html"), JobCardPage.write(SampleCards.fullest()));
    at.printsOnOnePage(most.toUri().toString(), 21, 29.7);
    at.printsOnOnePage(most.toUri().toString(), 21.59, 27.94);

    at.put(DemoWorld.HERON);
    at.measured("A-2");
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
    at.measured("A-3");
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

  private static void wrongJob(BrowserAtTheBench at) throws Exception {
    at.type("dipper", Keys.ENTER);
    at.waitFor("#card .now", "Scan the box");
    at.measured("D-1");
    at.waitFor("#card .headline", "this is not box Dipper");
    assertEquals("NOT JUDGED", at.browser.findElement(By.cssSelector("#card .word")).getText());
    at.waitFor("#card .trouble .word", "WRONG JOB");
    at.waitFor("#said", "Wrong job.");
    assertEquals(List.of(), at.looked("wrong-job"));
    assertEquals(List.of(), at.inaccessible());
  }
}
