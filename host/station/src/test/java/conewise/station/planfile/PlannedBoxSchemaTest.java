package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.files.BadFileException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The schema in docs and the reader draw the same line. Whole plans are changed in one place after
 * the other (a key taken out, one put in, a value exchanged for another type, unit or size), and
 * each time both must say the same.
 */
class PlannedBoxSchemaTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private static final String FULL =
      "{'plan': 2, 'name': 'x', 'driver_kinds': [{'name': 'k', 'coils': ['3 ohm', '4 ohm'],"
          + "'resonance': '30 Hz', 'mechanical_q': 5, 'electrical_q': '0.5 +- 10 %',"
          + "'equivalent_volume': '50 litres', 'cone_area': '300 cm2', 'inductance': '1 mH'}],"
          + "'drivers': [{'name': 'a', 'kind': 'k', 'behind': 'rear', 'before': 'front'},"
          + "{'names': ['b', 'c'], 'kind': 'k', 'behind': 'rear'}],"
          + "'spaces': [{'name': 'rear', 'volume': '40 litres', 'lined': 'yes'},"
          + "{'name': 'front', 'volume': '1 cu ft'}],"
          + "'vents': [{'name': 'v', 'behind': 'front', 'tuning': '40 Hz +- 5 %'},"
          + "{'name': 'w', 'behind': 'front', 'before': 'outside',"
          + "'size': {'diameter': '10 cm', 'length': '20 cm', 'count': 1, 'ends': 'free'}},"
          + "{'name': 'u', 'behind': 'rear',"
          + "'size': {'width': '1 ft', 'height': '1 in', 'length': '20 cm', 'along_wall': true}}],"
          + "'wiring': {'parallel': [{'series': ['a.1', {'reversed': 'a.2'}]}, 'b.1', 'b.2',"
          + "'c.1', 'c.2']}, 'leads': '0.1 ohm',"
          + "'limits': {'dc_resistance': {'low': '1 ohm', 'high': '2 ohm'},"
          + "'rated_impedance': '4 ohm', 'least_loss_q': {'rear': 4},"
          + "'tuning': {'front': {'low': '30 Hz', 'high': '40 Hz'}, 'rear': '30 Hz +- 9 %'}}}";

  private static final String SHORT =
      "{'plan': 2, 'name': 'x', 'box': 'sealed', 'drivers': [{'name': 'a', 'coils': ['3 ohm'],"
          + "'moving_mass': '100 g', 'compliance': '0.3 mm/N', 'total_q': 0.4}],"
          + "'wiring': 'a', 'limits': {'dc_tolerance': '5 %', 'closed_resonance':"
          + "{'low': '30 Hz'}, 'least_loss_q': 7}}";

  private static final String RADIATOR =
      "{'plan': 2, 'name': 'x', 'drivers': [{'name': 'a', 'coils': ['3 ohm']}],"
          + "'spaces': [{'name': 'main'}], 'passive_radiators': [{'name': 'r', 'behind': 'main',"
          + "'before': 'outside', 'resonance': '16 Hz', 'mechanical_q': 7,"
          + "'equivalent_volume': '90 l'}], 'wiring': 'a',"
          + "'limits': {'dc_resistance': '3 ohm +- 7 %', 'tuning': {'high': '40 Hz'}}}";

  private static final List<String> EXCHANGES =
      List.of(
          "0",
          "1",
          "2",
          "10",
          "1.5",
          "0.05",
          "0.04",
          "0.5",
          "0.4",
          "100",
          "101",
          "1000.5",
          "-1",
          "true",
          "null",
          "''",
          "'x'",
          "'yes'",
          "'YES'",
          "'outside'",
          "'free'",
          "'3'",
          "'3 ohm'",
          "'3.5 mohm'",
          "'3 ohm +- 5 %'",
          "'3 ohm +- 5'",
          "'3 ohm +- 120 %'",
          "'30 Hz'",
          "'30 hz'",
          "'30 Hz \u00b1 5 %'",
          "'30'",
          "'.5 m3'",
          "'20 litres'",
          "'2 cu ft +- 5 %'",
          "'200 cm2'",
          "'6 in'",
          "'6 in +- 1 %'",
          "'100 g'",
          "'1e-1 kg'",
          "'0.3 mm/N'",
          "'2e-3 H +/- 9 %'",
          "'5 %'",
          "'5%'",
          "'0.7 +- 10 %'",
          "[]",
          "[1]",
          "['3 ohm']",
          "['a', 'b']",
          "['3 ohm','3 ohm','3 ohm','3 ohm','3 ohm']",
          "{}",
          "{'low': '30 Hz'}",
          "{'low': 'x'}",
          "{'high': '4 ohm'}",
          "{'other': 1}");

  /** What the reader asks beyond the schema; the schema's description says it. */
  private static final List<String> BEYOND_SCHEMA =
      List.of(
          "out of range",
          "wiring",
          "they must agree",
          "follows from",
          "it must lie below that",
          "they must differ",
          "must be a space of the box",
          "which is taken",
          "drivers needs a name, or a list",
          "no driver works on the space",
          "is missing; say which space it is",
          "drivers.kind is the text",
          "behind is the text",
          "before is the text",
          "has a volume; add it",
          "tolerance is below 100 %",
          "above high",
          "is asked, and no space",
          "is not known in limits.tuning",
          "is not known in limits.closed_resonance",
          "is not known in limits.least_loss_q",
          "does not say which space it is for");

  private JsonNode schema;
  private SchemaCheck check;

  @BeforeEach
  void readSchema() throws IOException {
    schema = MAPPER.readTree(Path.of("../../docs/schemas/plan-2.json").toFile());
    check = new SchemaCheck(schema);
  }

  @Test
  void namesTheKeysThatTheReaderAllows() {
    assertEquals(PlannedBoxReader.KEYS, names("/properties"));
    assertEquals(DriversReader.KIND_KEYS, names("/properties/driver_kinds/items/properties"));
    assertEquals(DriversReader.DRIVER_KEYS, names("/properties/drivers/items/properties"));
    assertEquals(AirReader.SPACE_KEYS, names("/properties/spaces/items/properties"));
    assertEquals(AirReader.VENT_KEYS, names("/properties/vents/items/properties"));
    assertEquals(AirReader.SIZE_KEYS, names("/$defs/size/properties"));
    assertEquals(AirReader.RADIATOR_KEYS, names("/properties/passive_radiators/items/properties"));
    assertEquals(DemandsReader.KEYS, names("/properties/limits/properties"));
  }

  @Test
  void takesTheUnitsThatTheReaderTakes() {
    Map<String, Measure> measures =
        Map.of(
            "frequency", Measure.FREQUENCY,
            "resistance", Measure.RESISTANCE,
            "inductance", Measure.INDUCTANCE,
            "volume", Measure.VOLUME,
            "area", Measure.AREA,
            "exact_length", Measure.LENGTH,
            "exact_mass", Measure.MASS,
            "exact_compliance", Measure.COMPLIANCE);
    Set<Measure> ofCalculations =
        EnumSet.of(
            Measure.TIME, Measure.TEMPERATURE, Measure.WIRE_SECTION, Measure.PHASE, Measure.LEVEL);
    assertEquals(EnumSet.complementOf(EnumSet.copyOf(measures.values())), ofCalculations);
    measures.forEach(
        (name, measure) -> {
          String pattern = schema.at("/$defs/" + name + "/pattern").asText();
          String units = "(" + String.join("|", measure.labels()) + ")";
          assertTrue(pattern.contains(units), name + " has " + pattern + " and not " + units);
        });
  }

  @Test
  void agreesWithTheReaderAboutEveryPlanChangedInOnePlace() throws IOException {
    List<String> disagreements = new ArrayList<>();
    int accepted = 0;
    int refused = 0;
    for (String good : List.of(FULL, SHORT, RADIATOR)) {
      assertEquals("", refusal(json(good)), "the plan itself is good");
      for (JsonNode plan : ChangedPlans.of(json(good), EXCHANGES)) {
        boolean allowed = check.accepts(plan);
        String refusal = refusal(plan);
        boolean further = BEYOND_SCHEMA.stream().anyMatch(refusal::contains);
        if (allowed != refusal.isEmpty() && !(allowed && further)) {
          disagreements.add("schema " + allowed + ", reader: " + refusal + " " + plan);
        }
        accepted += allowed ? 1 : 0;
        refused += allowed ? 0 : 1;
      }
    }
    assertEquals(List.of(), disagreements);
    assertTrue(accepted > 100 && refused > 1000, accepted + " accepted, " + refused + " refused");
  }

  private static String refusal(JsonNode plan) {
    try {
      PlannedBoxFile.parse("plan.json", List.of(plan.toString()));
      return "";
    } catch (BadFileException e) {
      return e.getMessage();
    }
  }

  private static JsonNode json(String text) throws IOException {
    return MAPPER.readTree(text.replace('\'', '"'));
  }

  private List<String> names(String pointer) {
    return schema.at(pointer).propertyStream().map(Map.Entry::getKey).toList();
  }
}
