package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A bare driver on the virtual jig, whose equations in time share nothing with the fit: swept in
 * free air, with a mass on its cone and in a closed box, its world's parameters come back.
 */
class FitCommandTest {
  private static final String WORLD =
      """
      name: bare-driver
      about: A bare 10 inch driver
      truth: good
      seed: 5
      SPACES
      driver_types:
        - name: ten
          area_cm2: 330
          fs_hz: 27
          qms: 5.2
          qes: 0.48
          vas_litre: 70
          coils:
            - re_ohm: 5.6
          inductance: {k: 0.012, n: 0.7}
      drivers:
        - {name: one, type: ten, front: outside, rear: REAR}
      wiring: one.1
      jig:
        preset: ideal
      """;

  @TempDir Path folder;

  private Path sweep(String name, String spaces, String rear) throws Exception {
    Path world = folder.resolve(name + ".yaml");
    Files.writeString(world, WORLD.replace("SPACES", spaces).replace("REAR", rear));
    Path curve = folder.resolve(name + ".csv");
    CommandRun run =
        CommandRun.of("sweep", "--virtual", world.toString(), "--out", curve.toString());
    assertEquals(0, run.exitCode(), run.err());
    return curve;
  }

  private Path freeAir() throws Exception {
    return sweep("free", "", "outside");
  }

  private static JsonNode figures(CommandRun run) throws Exception {
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(java.util.List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
    return answer.get("figures");
  }

  private static JsonNode figure(JsonNode figures, String symbol) {
    for (JsonNode each : figures) {
      if (each.get("symbol").asText().equals(symbol)) {
        return each;
      }
    }
    throw new AssertionError("no figure " + symbol);
  }

  private static void assertTells(double expected, double relative, JsonNode figure) {
    assertTrue(figure.has("value"), figure.toString());
    assertEquals(expected, figure.get("value").asDouble(), relative * expected, figure.toString());
    JsonNode interval = figure.get("interval");
    assertTrue(
        interval.get("low").asDouble() <= expected && expected <= interval.get("high").asDouble(),
        expected + " against " + figure);
  }

  /** Mms = (S / (2 pi fs))^2 rho c^2 / Vas with the world's values: 76.6 g (Small 1972). */
  @Test
  void massAndBoxTogetherGiveEveryParameter() throws Exception {
    Path mass = sweep("mass", "", "outside, added_mass_gram: 50");
    Path box = sweep("box", "spaces:\n  - name: closed\n    volume_litre: 50\n", "closed");
    JsonNode figures =
        figures(
            CommandRun.of(
                "fit",
                freeAir().toString(),
                "--with-mass",
                "50=" + mass,
                "--in-box",
                "50=" + box,
                "--json"));
    double bulk = 1.204 * 343.2 * 343.2;
    double grams = 1e3 * Math.pow(0.033 / (2 * Math.PI * 27), 2) * bulk / 0.070;
    assertTells(27, 0.005, figure(figures, "fs"));
    assertTells(5.2, 0.05, figure(figures, "Qms"));
    assertTells(0.48, 0.04, figure(figures, "Qes"));
    assertTells(grams, 0.04, figure(figures, "Mms"));
    assertTells(70, 0.04, figure(figures, "Vas"));
    assertTells(330, 0.03, figure(figures, "Sd"));
  }

  @Test
  void freeAirAloneSaysWhatItCannotTellAndWhatWould() throws Exception {
    CommandRun run = CommandRun.of("fit", freeAir().toString());
    assertEquals(0, run.exitCode(), run.err());
    assertTrue(run.out().contains("  fs   resonance in free air"), run.out());
    assertFalse(run.out().contains("  Mms "), run.out());
    assertTrue(run.out().contains("Not told: Mms cannot be had from free air alone"), run.out());
  }

  @Test
  void aCurveWithoutAResonanceIsRefusedInOneSentence() throws Exception {
    Path flat = folder.resolve("flat.csv");
    StringBuilder text = new StringBuilder("frequency_hz,resistance_ohm,reactance_ohm\n");
    for (int f = 10; f < 400; f += 5) {
      text.append(f).append(",8.0,0.1\n");
    }
    Files.writeString(flat, text);
    CommandRun run = CommandRun.of("fit", flat.toString());
    assertEquals(3, run.exitCode(), run.err());
    assertTrue(run.err().contains("no peak that stands out"), run.err());
    assertFalse(run.err().contains("Exception"), run.err());
  }

  @ParameterizedTest
  @ValueSource(strings = {"-3=x.csv", "0=x.csv", "heavy=x.csv", "50"})
  void anAbsurdMassIsRefusedAsAWrongCommandLine(String mass) throws Exception {
    CommandRun run = CommandRun.of("fit", freeAir().toString(), "--with-mass", mass);
    assertEquals(64, run.exitCode(), run.err());
    assertFalse(run.err().contains("Exception"), run.err());
  }

  @Test
  void aMissingFileIsNamed() {
    CommandRun run = CommandRun.of("fit", folder.resolve("none.csv").toString());
    assertEquals(65, run.exitCode(), run.err());
    assertTrue(run.err().contains("none.csv"), run.err());
  }
}
