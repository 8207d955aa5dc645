package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.planfile.PlannedBoxFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class PredictCommandTest {
  private static final Path EXAMPLES = Path.of("../../docs/examples/plans");

  @TempDir Path folder;

  /** Each of another kind of box, and those that come with the application. */
  static List<String> plans() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      Stream<String> examples = files.map(Path::toString).sorted();
      return Stream.concat(examples, PlannedBoxFile.BUNDLED.stream()).toList();
    }
  }

  @ParameterizedTest
  @MethodSource("plans")
  void everyPlanGivesAPredictionAsTheSchemaHasItWithACurveOrAReasonForEachFault(String plan)
      throws Exception {
    Path page = folder.resolve("page.html");
    CommandRun run =
        CommandRun.of("predict", plan, "--boxes", "4", "--json", "--report", page.toString());
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), plan);
    assertFalse(answer.get("faults").isEmpty());
    for (JsonNode fault : answer.get("faults")) {
      assertTrue(fault.has("curve") != fault.has("no_curve_because"), fault.toString());
      assertEquals(
          fault.get("shown").asText().equals("never"), fault.has("shown_by"), fault.toString());
    }
    String html = Files.readString(page);
    assertTrue(html.startsWith("<!DOCTYPE html>") && html.endsWith("</html>\n"));
    for (String never : List.of("NaN", "Infinity", "null", "<script", "http:/", "Optional")) {
      assertFalse(html.replace("http://www.w3.org/2000/svg", "").contains(never), never);
    }
  }

  @Test
  void theTextSaysWhatShowsSurelyPerhapsAndNeverInAtMostEightyColumns() throws Exception {
    String page = Files.readString(Path.of("../../docs/prediction.md"));
    String line = "predict heron --report heron.html";
    assertTrue(page.contains("```\n./conewise " + line + "\n```"), "the page shows another line");
    String report = folder.resolve("heron.html").toString();
    CommandRun run = CommandRun.of(line.replace("heron.html", report).split(" "));
    assertEquals(0, run.exitCode(), run.err());
    for (String each : run.out().lines().toList()) {
      assertTrue(each.length() <= 80 || each.contains(report), each);
    }
    String text = run.out().replaceAll("\\s+", " ");
    assertTrue(text.contains("P1 driver left or right is wired backwards one peak"), text);
    assertTrue(text.contains("same as good > never shown"), text);
    assertTrue(text.contains("may hide behind tolerances"), text);
    assertTrue(text.contains("polarity never shows in it"), text);
    assertTrue(text.contains("Never shown: the whole box is wired backwards. Pop test"), text);
    assertTrue(text.contains("A vermilion + of the box; + of coil 1 of left"), text);
  }

  @Test
  void theSamePlanGivesTheSamePage() throws Exception {
    Path first = folder.resolve("one.html");
    Path second = folder.resolve("two.html");
    for (Path page : List.of(first, second)) {
      assertEquals(
          0,
          CommandRun.of("predict", "kestrel", "--boxes", "4", "--report", page.toString())
              .exitCode());
    }
    assertEquals(Files.readString(first), Files.readString(second));
  }

  @Test
  void namesOfAPlanAreEscapedInThePage() throws Exception {
    Path plan = folder.resolve("odd.yaml");
    Files.writeString(
        plan,
        """
        plan: 2
        name: "A <b> & 'c'"
        box: sealed
        drivers:
          - {name: woofer, coils: [5.6 ohm]}
        wiring: woofer
        """);
    Path page = folder.resolve("page.html");
    CommandRun run =
        CommandRun.of("predict", plan.toString(), "--boxes", "4", "--report", page.toString());
    assertEquals(0, run.exitCode(), run.err());
    String html = Files.readString(page);
    assertTrue(html.contains("<h1>A &lt;b&gt; &amp; &#39;c&#39;</h1>"), html);
    assertFalse(html.contains("A <b>"));
  }

  @Test
  void whatCannotBeDoneIsSaidInASentenceWithItsExitCode() throws Exception {
    CommandRun few = CommandRun.of("predict", "heron", "--boxes", "3");
    assertEquals(64, few.exitCode());
    assertTrue(few.err().contains("--boxes is 3; it must be 4 to 1000"), few.err());

    CommandRun missing = CommandRun.of("predict", folder.resolve("none.yaml").toString());
    assertEquals(65, missing.exitCode());
    assertFalse(missing.err().contains("Exception"), missing.err());

    Path plan = folder.resolve("plan.yaml");
    Files.copy(EXAMPLES.resolve("dunlin.yaml"), plan);
    CommandRun over = CommandRun.of("predict", plan.toString(), "--report", plan.toString());
    assertEquals(64, over.exitCode());
    assertTrue(over.err().contains("named twice"), over.err());
    assertEquals(Files.readString(EXAMPLES.resolve("dunlin.yaml")), Files.readString(plan));

    Path inFile = plan.resolve("page.html");
    CommandRun unwritten =
        CommandRun.of("predict", "kestrel", "--boxes", "4", "--report", inFile.toString());
    assertEquals(74, unwritten.exitCode(), unwritten.err());
  }
}
