package conewise.station.records.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.judgement.Verdict.Suspect;
import conewise.station.card.JobCard.Fact;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;

/**
 * What is kept of a run as JSON, since nobody looks for it by its parts: bench findings, facts, and
 * of a verdict all beside its checks.
 */
final class Documents {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Of a verdict what is kept as JSON. */
  record Details(
      List<Suspect> suspects,
      List<String> notShown,
      List<BenchFinding> bench,
      List<NextTest> tests) {}

  private Documents() {}

  static String ofFindings(List<BenchFinding> findings) {
    return list(findings, Documents::write).toString();
  }

  static List<BenchFinding> findings(String json) throws IOException {
    return items(read(json), Documents::finding);
  }

  static String ofFacts(List<Fact> facts) {
    return list(facts, (to, fact) -> to.put("label", fact.label()).put("text", fact.text()))
        .toString();
  }

  static List<Fact> facts(String json) throws IOException {
    return items(read(json), each -> new Fact(text(each, "label"), text(each, "text")));
  }

  static String of(Details details) {
    ObjectNode all = MAPPER.createObjectNode();
    all.set("suspects", list(details.suspects(), Documents::write));
    details.notShown().forEach(all.putArray("not_shown")::add);
    all.set("bench", list(details.bench(), Documents::write));
    all.set("tests", list(details.tests(), Documents::write));
    return all.toString();
  }

  static Details details(String json) throws IOException {
    JsonNode all = read(json);
    return new Details(
        items(all.path("suspects"), Documents::suspect),
        texts(all.path("not_shown")),
        items(all.path("bench"), Documents::finding),
        items(all.path("tests"), Documents::test));
  }

  private static void write(ObjectNode to, BenchFinding finding) {
    to.put("kind", finding.kind().name()).put("spoils", finding.spoils());
    to.put("sentence", finding.sentence()).put("next_step", finding.nextStep());
  }

  private static BenchFinding finding(JsonNode from) throws IOException {
    return new BenchFinding(
        BenchFinding.Kind.valueOf(text(from, "kind")),
        from.path("spoils").asBoolean(),
        text(from, "sentence"),
        text(from, "next_step"));
  }

  private static void write(ObjectNode to, Suspect suspect) {
    suspect.faults().forEach(to.putArray("faults")::add);
    to.put("because", suspect.because()).put("test", suspect.test());
    to.put("probability", suspect.probability());
  }

  private static Suspect suspect(JsonNode from) throws IOException {
    return new Suspect(
        texts(from.path("faults")),
        text(from, "because"),
        text(from, "test"),
        from.path("probability").asDouble());
  }

  private static void write(ObjectNode to, NextTest test) {
    to.put("instruction", test.instruction()).put("minutes", test.minutes());
    to.put("bits", test.bits());
    to.set(
        "results",
        list(
            test.results(),
            (of, result) ->
                of.put("seen", result.seen())
                    .put("meaning", result.meaning())
                    .put("probability", result.probability())));
  }

  private static NextTest test(JsonNode from) throws IOException {
    return new NextTest(
        text(from, "instruction"),
        from.path("minutes").asDouble(),
        from.path("bits").asDouble(),
        items(
            from.path("results"),
            each ->
                new NextTest.Result(
                    text(each, "seen"),
                    text(each, "meaning"),
                    each.path("probability").asDouble())));
  }

  private static <T> ArrayNode list(List<T> items, BiConsumer<ObjectNode, T> writer) {
    ArrayNode list = MAPPER.createArrayNode();
    items.forEach(item -> writer.accept(list.addObject(), item));
    return list;
  }

  @FunctionalInterface
  private interface ItemReader<T> {
    T read(JsonNode node) throws IOException;
  }

  private static <T> List<T> items(JsonNode list, ItemReader<T> reader) throws IOException {
    List<T> items = new ArrayList<>();
    for (JsonNode each : list) {
      items.add(reader.read(each));
    }
    return items;
  }

  private static List<String> texts(JsonNode list) throws IOException {
    return items(list, JsonNode::asText);
  }

  private static String text(JsonNode from, String key) throws IOException {
    if (!from.path(key).isTextual()) {
      throw new IOException("the text " + key + " is missing");
    }
    return from.get(key).asText();
  }

  private static JsonNode read(String json) throws IOException {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException damaged) {
      throw new IOException(damaged.getOriginalMessage(), damaged);
    }
  }
}
