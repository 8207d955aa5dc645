package conewise.station.pop;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.PlainText;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** A pop test in a file: JSON, schema {@code conewise/pops-1}, see docs/schemas/pops-1.json. */
public final class PopFile {
  static final String SCHEMA = "conewise/pops-1";
  private static final long LARGEST_BYTES = 1 << 20;
  private static final JsonMapper MAPPER =
      JsonMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .build();

  private PopFile() {}

  /** The record as JSON. */
  public static ObjectNode node(PopRecord record) {
    ObjectNode node = JsonNodeFactory.instance.objectNode().put("schema", SCHEMA);
    node.put("plan", record.plan());
    record.serial().ifPresent(serial -> node.put("serial", serial));
    node.put("made", record.made()).put("way", record.way().word());
    if (record.way() == PopWay.MICROPHONE) {
      node.put("microphone_proven", record.microphoneProven());
    }
    drivers(node.putArray("drivers"), record);
    return node;
  }

  /** Adds the readings of a record, one object a driver. */
  public static void drivers(ArrayNode drivers, PopRecord record) {
    for (PopReading reading : record.readings()) {
      ObjectNode each = drivers.addObject().put("driver", reading.driver());
      each.put("expected", MotionWords.of(reading.expected()));
      if (reading.seen() instanceof Found<Motion> found) {
        each.put("motion", MotionWords.of(found.value()));
      } else {
        each.put("no_value_because", ((NoResult<Motion>) reading.seen()).because());
      }
      reading
          .heard()
          .ifPresent(
              heard ->
                  each.put("pressure_pa", heard.pressurePascal())
                      .put("noise_pa", heard.noisePascal()));
    }
  }

  /**
   * Writes a record.
   *
   * @throws BadFileException when it cannot be written, or is there already and may not be replaced
   */
  public static void write(Path file, PopRecord record, Existing existing) throws BadFileException {
    NewFile.writeText(file, existing, node(record).toPrettyString() + "\n");
  }

  /**
   * Reads a record of a box.
   *
   * @param plan whose drivers it must name
   * @throws BadFileException when it is not there, no such record, or of another plan
   */
  public static PopRecord read(Path file, PlannedBox plan) throws BadFileException {
    try {
      long bytes = Files.size(file);
      if (bytes > LARGEST_BYTES) {
        throw new BadFileException(
            file + " has " + bytes + " bytes; a pop test has at most " + LARGEST_BYTES + ".");
      }
      return record(MAPPER.readTree(Files.readAllBytes(file)), plan);
    } catch (JsonProcessingException | IllegalArgumentException bad) {
      String why = String.valueOf(bad.getMessage()).lines().findFirst().orElse("no reason given");
      throw new BadFileException(
          file
              + " is no pop test of this plan: "
              + PlainText.tame(why)
              + "; make it again by pop.");
    } catch (IOException e) {
      throw new BadFileException(
          file + " cannot be read (" + e.getClass().getSimpleName() + "); check its name.");
    }
  }

  private static PopRecord record(JsonNode node, PlannedBox plan) {
    same("its schema", text(node, "schema"), SCHEMA);
    same("its plan", text(node, "plan"), plan.name());
    String way = text(node, "way");
    PopWay found = null;
    for (PopWay each : PopWay.values()) {
      found = each.word().equals(way) ? each : found;
    }
    if (found == null) {
      throw new IllegalArgumentException("its way is \"" + way + "\"");
    }
    Optional<String> serial =
        node.has("serial") ? Optional.of(text(node, "serial")) : Optional.empty();
    return new PopRecord(
        plan.name(),
        serial,
        text(node, "made"),
        found,
        proven(node),
        readings(node.get("drivers"), plan));
  }

  /** False where nothing is said. */
  private static boolean proven(JsonNode node) {
    JsonNode value = node.get("microphone_proven");
    if (value != null && !value.isBoolean()) {
      throw new IllegalArgumentException("\"microphone_proven\" is neither true nor false");
    }
    return value != null && value.asBoolean();
  }

  private static List<PopReading> readings(JsonNode drivers, PlannedBox plan) {
    if (drivers == null || !drivers.isArray()) {
      throw new IllegalArgumentException("\"drivers\" is not a list");
    }
    Map<String, Motion> expected = new PopPlan(plan).expected();
    List<PopReading> readings = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (JsonNode each : drivers) {
      String driver = text(each, "driver");
      if (!expected.containsKey(driver) || !names.add(driver)) {
        throw new IllegalArgumentException(
            "driver \""
                + driver
                + "\" stands there; each of "
                + expected.keySet()
                + " may stand there once");
      }
      readings.add(
          new PopReading(driver, expected.get(driver), seen(driver, each), Optional.empty()));
    }
    return readings;
  }

  private static Outcome<Motion> seen(String driver, JsonNode each) {
    if (each.has("motion") == each.has("no_value_because")) {
      throw new IllegalArgumentException(
          "driver \"" + driver + "\" must have either \"motion\" or \"no_value_because\"");
    }
    if (each.has("no_value_because")) {
      return Outcome.none(text(each, "no_value_because"));
    }
    String word = text(each, "motion");
    return Outcome.found(
        MotionWords.read(word)
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "the motion of driver \""
                            + driver
                            + "\" is \""
                            + word
                            + "\"; it is out, in or hardly")));
  }

  private static void same(String what, String found, String wanted) {
    if (!found.equals(wanted)) {
      throw new IllegalArgumentException(
          what + " is \"" + found + "\" instead of \"" + wanted + "\"");
    }
  }

  private static String text(JsonNode node, String key) {
    JsonNode value = node == null ? null : node.get(key);
    if (value == null || !value.isTextual() || value.asText().isBlank()) {
      throw new IllegalArgumentException("\"" + key + "\" is not there, or not a text");
    }
    return value.asText();
  }
}
