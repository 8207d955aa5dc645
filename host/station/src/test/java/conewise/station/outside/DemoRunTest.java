package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.command.CommandRun;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The workshop's boxes: how each was built is known from its world, apart from the judge. */
class DemoRunTest {
  @TempDir Path folder;

  @Test
  void noBoxOfTheDemoIsJudgedWrongly() throws Exception {
    CommandRun run = CommandRun.of("demo", "--json", "--out", folder.toString());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    assertEquals(8, answer.get("boxes").size());
    int matched = 0;
    for (JsonNode box : answer.get("boxes")) {
      assertTrue(Files.size(Path.of(box.get("report").asText())) > 1000, box.toString());
      matched += box.get("match").asText().equals("yes") ? 1 : 0;
    }
    assertEquals(0, run.exitCode(), run.out());
    // Beyond what terminals can show is the pair in separate spaces alone; one more may stand so
    // near
    // a limit that its interval crosses it.
    assertTrue(matched >= 7, run.out());
  }
}
