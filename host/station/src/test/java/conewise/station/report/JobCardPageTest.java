package conewise.station.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class JobCardPageTest {

  @Test
  void theVerdictIsReadableByWordAndShapeWithoutColour() {
    String page = JobCardPage.write(SampleCards.failed());
    assertTrue(page.contains("<p class=\"word\">FAIL</p>"), page);
    assertTrue(page.contains("<polygon class=\"shape\""), "the sign's shape is missing");
  }

  @Test
  void everyTextIsEscaped() {
    String page = JobCardPage.write(SampleCards.failed());
    assertFalse(page.contains("<script"), "a serial number became markup");
    assertTrue(page.contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;C&quot;"), page);
  }

  @Test
  void nothingIsFetchedFromOutside() {
    for (JobCard card : cards()) {
      String page = JobCardPage.write(card);
      Pattern outside = Pattern.compile("(?i)(src|href)\\s*=|url\\(|@import|<script|<link");
      assertFalse(outside.matcher(page).find(), "the page refers to something outside itself");
    }
  }

  @Test
  void thePageHasLanguageTitleAndTableHeaders() {
    String page = JobCardPage.write(SampleCards.passed());
    assertTrue(page.contains("<html lang=\"en\">"));
    assertTrue(page.contains("<title>C-1047: PASS (Heron, two 10 inch)</title>"), page);
    assertTrue(page.contains("<th scope=\"col\">Value</th>"));
    assertTrue(page.contains("<th scope=\"row\">Vent tuning"));
  }

  @Test
  void theChartIsWellFormedWithTitleAndDescription() throws Exception {
    String page = JobCardPage.write(SampleCards.passed());
    int start = page.indexOf("<svg viewBox=\"0 0 760");
    String svg = page.substring(start, page.indexOf("</svg>", start) + 6);
    Document document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)));
    assertNotNull(document.getElementsByTagName("title").item(0));
    String description = document.getElementsByTagName("desc").item(0).getTextContent();
    assertTrue(description.contains("Dip to 4.5 ohm at 33.1 Hz"), description);
    assertFalse(svg.contains("NaN"), "a coordinate is not a number");
  }

  @Test
  void theSameCardGivesTheSameBytes() {
    assertEquals(JobCardPage.write(SampleCards.passed()), JobCardPage.write(SampleCards.passed()));
  }

  @Test
  void aCardWithoutACurveSaysWhy() {
    String page = JobCardPage.write(SampleCards.notJudged());
    assertTrue(page.contains("No curve: the clips touch nothing"), page);
    assertTrue(page.contains("NOT JUDGED"));
  }

  /** Leaves the pages where a person can look at them. */
  @Test
  void pagesAreSmallEnoughToMail() throws Exception {
    Path folder = Path.of("target", "sample-cards");
    Files.createDirectories(folder);
    int number = 0;
    for (JobCard card : cards()) {
      String page = JobCardPage.write(card);
      Files.writeString(folder.resolve("card-" + number++ + ".html"), page);
      assertTrue(page.length() < 100_000, "the page has " + page.length() + " characters");
    }
  }

  private static JobCard[] cards() {
    return new JobCard[] {
      SampleCards.passed(), SampleCards.failed(), SampleCards.notJudged(), SampleCards.fullest()
    };
  }
}
