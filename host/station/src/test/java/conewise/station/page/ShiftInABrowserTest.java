package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

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
  void aShiftByKeyboardAloneNamesTheReversedDriverAndCountsTheRework() throws Exception {
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      at.waitFor("#jig", "on");
      assertEquals(List.of(), at.inaccessible());
      at.picture("choose-a-job");
      at.type("heron", Keys.ENTER);
      at.waitFor("#card .now", "Scan the box");
      at.put("heron-driver-reversed");
      at.type("A-1", Keys.ENTER);
      at.waitFor("#card .now", "Clip on");
      at.picture("clip-on");
      at.type(Keys.ENTER);
      at.waitFor("#card .word", "FAIL");
      assertEquals("A-1", at.browser.findElement(By.cssSelector("#card h1")).getText());
      assertTrue(at.card().contains("backwards"), at.card());
      at.picture("failed");
      assertEquals(List.of(), at.inaccessible());

      // A new number takes the old verdict off the card at once.
      at.type("A-2", Keys.ENTER);
      at.waitFor("#card h1", "A-2");
      assertFalse(at.card().contains("FAIL"), at.card());

      at.put("heron");
      at.type("A-1", Keys.ENTER);
      at.waitFor("#card h1", "A-1");
      at.type(Keys.ENTER);
      at.waitFor("#card .kind", "attempt 2");
      assertFalse(at.card().contains("backwards:"), at.card());
      at.picture("after-rework");
      assertEquals(2, at.browser.findElements(By.cssSelector("#today li")).size());
      assertEquals(2, at.store.attempts("heron", "A-1"));
      assertEquals(0, at.store.attempts("heron", "A-2"));
    }
  }
}
