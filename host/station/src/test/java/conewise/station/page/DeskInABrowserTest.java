package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.station.card.SampleCards;
import conewise.station.records.PlanText;
import conewise.station.records.SampleRuns;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** The pages of the records and the calculations in a real browser, by keyboard alone. */
@Execution(ExecutionMode.CONCURRENT)
class DeskInABrowserTest {
  @TempDir private Path shelf;

  @Test
  void aPersonOverrulesAndWorksThingsOutByKeyboardAloneAndEveryPageIsAccessible() throws Exception {
    assumeTrue(
        Files.exists(Path.of(BrowserAtTheBench.DRIVER))
            && Files.exists(Path.of(BrowserAtTheBench.BROWSER)),
        "no Chromium with its driver here");
    try (BrowserAtTheBench at = new BrowserAtTheBench(shelf, 1280, 720)) {
      keepAFewRuns(at);
      follow(at, "Records", "records-list");
      follow(at, "C-1", "records-run");

      // From the form's first field on: fail, who, why, and the button.
      at.browser.findElement(By.cssSelector("#overrule [value=fail]")).sendKeys(Keys.SPACE);
      at.type(Keys.TAB, "Grace", Keys.TAB, "It hums.", Keys.TAB, Keys.ENTER);
      String beside = at.waitFor(".overruled", "Overruled by Grace: It hums.");
      assertTrue(beside.startsWith("To FAIL"), beside);
      assertEquals("PASS", at.browser.findElement(By.cssSelector(".verdict .word")).getText());
      look(at, "records-overruled");

      open(at, "/records/compare?run=1&run=2", "records-compare");
      open(at, "/records/owner?job=spring&built=C-1..C-12", "records-owner");
      open(at, "/work-out", "work-out");
      open(at, "/work-out/vent?volume=60&tuning=34Hz", "work-out-to-mend");
      assertEquals("volume", at.browser.switchTo().activeElement().getAttribute("name"));
      at.type(Keys.END, "litres", Keys.TAB, Keys.TAB, Keys.TAB, "10cm", Keys.ENTER);
      at.waitFor("#answer .value", "264.7 mm");
      assertTrue(
          at.browser.getCurrentUrl().contains("/vent?volume=60litres&tuning=34Hz&diameter=10cm"),
          at.browser.getCurrentUrl());
      look(at, "work-out-vent");
    }
  }

  private static void keepAFewRuns(BrowserAtTheBench at) throws Exception {
    PlanText heron;
    try (var in = DeskInABrowserTest.class.getResourceAsStream("/conewise/plans/heron.yaml")) {
      heron = PlanText.of("heron.yaml", in.readAllBytes());
    }
    for (int i = 10; i > 0; i--) {
      at.store.append(
          SampleRuns.run(
              i == 5 ? SampleCards.failed() : SampleCards.passed(),
              "spring",
              "C-" + i,
              heron,
              SampleRuns.MORNING.plusSeconds(-300L * i)));
    }
  }

  private static void follow(BrowserAtTheBench at, String words, String picture) throws Exception {
    at.browser.findElement(By.linkText(words)).sendKeys(Keys.ENTER);
    at.waitFor(".desk main h1", "");
    look(at, picture);
  }

  private static void open(BrowserAtTheBench at, String address, String picture) throws Exception {
    at.browser.get("http://127.0.0.1:" + at.server.port() + address);
    look(at, picture);
  }

  private static void look(BrowserAtTheBench at, String picture) throws Exception {
    at.picture(picture);
    assertEquals(List.of(), at.inaccessible(), picture);
  }
}
