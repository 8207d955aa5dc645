package conewise.station.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import java.util.List;
import org.junit.jupiter.api.Test;

class JsonAnswerTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @Test
  void everyCardFollowsThePublishedSchema() throws Exception {
    SchemaCheck schema = SchemaCheck.named("answer-1");
    for (JobCard card :
        List.of(SampleCards.passed(), SampleCards.failed(), SampleCards.notJudged())) {
      JsonNode answer = MAPPER.readTree(JsonAnswer.judged("check", card).toString());
      assertEquals(List.of(), schema.problems(answer));
    }
  }

  @Test
  void aFailureFollowsThePublishedSchema() throws Exception {
    JsonNode answer =
        MAPPER.readTree(
            JsonAnswer.failure("judge", ExitCode.BAD_DATA, "box.csv is empty.").toString());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
  }

  @Test
  void theSchemaRefusesWhatIsAbsentUnknownOrOfTheWrongKind() throws Exception {
    SchemaCheck schema = SchemaCheck.named("answer-1");
    ObjectNode good = JsonAnswer.judged("check", SampleCards.passed());
    assertFalse(schema.problems(good.deepCopy().put("surprise", 1)).isEmpty());
    assertFalse(schema.problems(good.deepCopy().put("attempt", "two")).isEmpty());
    assertFalse(schema.problems(good.deepCopy().put("decision", "maybe")).isEmpty());
    assertFalse(schema.problems(good.deepCopy().without("headline")).isEmpty());
    assertFalse(schema.problems(good.deepCopy().putNull("action")).isEmpty());
  }

  @Test
  void anOpenLimitIsLeftOutSinceJsonKnowsNoInfinity() {
    String text = JsonAnswer.judged("judge", SampleCards.passed()).toString();
    assertFalse(text.contains("Infinity") || text.contains("NaN") || text.contains("null"), text);
  }

  @Test
  void aMissingValueSaysWhyAndIsNeverANumber() {
    JsonNode tuning = JsonAnswer.judged("check", SampleCards.failed()).get("checks").get(2);
    assertEquals("one peak gives no tuning", tuning.get("no_value_because").asText());
    assertFalse(tuning.has("value"));
    assertTrue(tuning.has("limits"));
  }
}
