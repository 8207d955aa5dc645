package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.files.BadFileException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The schema in docs and the reader must draw the same line. A whole plan is changed in one place
 * after the other (a key taken out, one put in, a value exchanged for another type or moved to an
 * end of its range and beyond), and each time both must say the same.
 */
class PlanSchemaTest {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private static final String VENTED =
      "{'plan': 1, 'name': 'x', 'box': 'vented', 'spaces': 'shared',"
          + "'drivers': [{'name': 'a', 'coil_ohm': [3, 4], 'resonance_hz': 30},"
          + "{'name': 'b', 'coil_ohm': [3]}],"
          + "'wiring': {'parallel': [{'series': ['a.1', 'a.2']}, 'b']}, 'lead_ohm': 0.1,"
          + "'limits': {'dc_resistance_ohm': {'low': 1, 'high': 2}, 'rated_impedance_ohm': 4,"
          + "'tuning_hz': {'low': 30, 'high': 40}, 'dip_ratio': {'high': 2},"
          + "'peak_ratio': {'low': 3}}}";

  private static final String SEALED =
      "{'plan': 1, 'name': 'x', 'box': 'sealed', 'drivers': [{'name': 'a', 'coil_ohm': [3]}],"
          + "'wiring': 'a', 'limits': {'dc_tolerance_percent': 5, 'resonance_hz': {'low': 30}}}";

  /** Values that stand at the ends of the ranges and just beyond, and of every type. */
  private static final List<String> EXCHANGES =
      List.of(
          "0",
          "1",
          "2",
          "10",
          "10.5",
          "16",
          "50",
          "50.5",
          "0.1",
          "0.09",
          "0.5",
          "0.4",
          "0.01",
          "0.009",
          "1000",
          "1000.5",
          "-1",
          "true",
          "null",
          "''",
          "'x'",
          "'vented'",
          "'separate'",
          "'3'",
          "[]",
          "[1]",
          "[1,1,1,1,1]",
          "{}",
          "{'low': 1}",
          "{'low': 'x'}",
          "{'high': 1000}",
          "{'high': 2000}",
          "{'other': 1}");

  /** What the reader asks beyond the schema; the schema's description says it. */
  private static final List<String> BEYOND_SCHEMA =
      List.of("wiring", "drivers.name", "above high", "belongs to", "spaces is separate");

  private JsonNode schema;
  private SchemaCheck check;

  @BeforeEach
  void readSchema() throws IOException {
    schema = MAPPER.readTree(Path.of("../../docs/schemas/plan-1.json").toFile());
    check = new SchemaCheck(schema);
  }

  @Test
  void namesTheKeysThatTheReaderAllows() {
    assertEquals(PlanReader.KEYS, names("/properties"));
    assertEquals(PlanReader.DRIVER_KEYS, names("/properties/drivers/items/properties"));
    assertEquals(LimitsReader.KEYS, names("/properties/limits/properties"));
    assertEquals(WiringReader.KEYS, names("/$defs/wiring/anyOf/1/properties"));
  }

  @Test
  void agreesWithTheReaderAboutEveryPlanChangedInOnePlace() throws IOException {
    List<String> disagreements = new ArrayList<>();
    int accepted = 0;
    int refused = 0;
    for (String good : List.of(VENTED, SEALED)) {
      assertEquals("", refusal(json(good)), "the plan itself is good");
      for (JsonNode plan : changed(json(good))) {
        boolean allowed = check.accepts(plan);
        String refusal = refusal(plan);
        boolean further = BEYOND_SCHEMA.stream().anyMatch(refusal::contains);
        if (allowed != refusal.isEmpty() && !(allowed && further)) {
          disagreements.add(plan + " schema " + allowed + ", reader: " + refusal);
        }
        accepted += allowed ? 1 : 0;
        refused += allowed ? 0 : 1;
      }
    }
    assertEquals(List.of(), disagreements);
    assertTrue(accepted > 50 && refused > 300, accepted + " accepted, " + refused + " refused");
  }

  /** Copies of a plan, each changed in one place. */
  private static List<JsonNode> changed(JsonNode plan) throws IOException {
    List<JsonNode> all = new ArrayList<>();
    for (String pointer : pointers("", plan)) {
      for (String exchange : EXCHANGES) {
        all.add(with(plan, pointer, json(exchange)));
      }
      all.add(without(plan, pointer));
      JsonNode extended = plan.deepCopy();
      if (extended.at(pointer) instanceof ObjectNode object) {
        all.add(extended);
        object.put("resonance_mhz", 1);
      }
    }
    return all;
  }

  private static List<String> pointers(String start, JsonNode node) {
    List<String> all = new ArrayList<>();
    if (node.isObject()) {
      node.properties()
          .forEach(
              entry -> {
                all.add(start + "/" + entry.getKey());
                all.addAll(pointers(start + "/" + entry.getKey(), entry.getValue()));
              });
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      all.add(start + "/" + i);
      all.addAll(pointers(start + "/" + i, node.get(i)));
    }
    return all;
  }

  private static JsonNode with(JsonNode plan, String pointer, JsonNode value) {
    JsonNode copy = plan.deepCopy();
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    JsonNode parent = copy.at(pointer.substring(0, pointer.lastIndexOf('/')));
    if (parent instanceof ArrayNode array) {
      array.set(Integer.parseInt(last), value);
    } else {
      ((ObjectNode) parent).set(last, value);
    }
    return copy;
  }

  private static JsonNode without(JsonNode plan, String pointer) {
    JsonNode copy = plan.deepCopy();
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    JsonNode parent = copy.at(pointer.substring(0, pointer.lastIndexOf('/')));
    if (parent instanceof ArrayNode array) {
      array.remove(Integer.parseInt(last));
    } else {
      ((ObjectNode) parent).remove(last);
    }
    return copy;
  }

  private static String refusal(JsonNode plan) {
    try {
      PlanFile.parse("plan.json", List.of(plan.toString()));
      return "";
    } catch (BadFileException e) {
      return e.getMessage();
    }
  }

  private static JsonNode json(String text) throws IOException {
    return MAPPER.readTree(text.replace('\'', '"'));
  }

  private List<String> names(String pointer) {
    return schema.at(pointer).propertyStream().map(java.util.Map.Entry::getKey).toList();
  }
}
