package conewise.simulator.world;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.Microphone;
import conewise.simulator.box.HeatExchange;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Wiring;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class WorldFileTest {
  private static final String SMALL =
      """
      name: small
      about: one driver in a box
      seed: 1
      spaces:
        - name: main
          volume_litre: 20
      driver_types:
        - name: any
          area_cm2: 200
          mass_gram: 30
          compliance_mm_per_n: 0.8
          loss_ns_per_m: 1.2
          coils:
            - {re_ohm: 6, bl_tm: 8}
      drivers:
        - {name: one, type: any, front: outside, rear: main}
      leaks:
        - {name: seam, front: outside, rear: main, resistance_pa_s_per_m3: 50000}
      wiring:
        series: [{resistance_ohm: 0.2}, one.1]
      jig:
        preset: ideal
        contact: {ohm: 0.1}
      """;

  @Test
  void readsEachValueInItsUnit() {
    World world = WorldFile.read(SMALL);
    assertEquals(0.02, world.box().spaces().get(0).volumeM3(), 1e-15);
    Opening.DriverOpening one = (Opening.DriverOpening) world.box().openings().get(0);
    assertEquals(0.03, one.driver().massKg(), 1e-15);
    assertEquals(0.02, one.driver().areaM2(), 1e-15);
    assertEquals(8e-4, one.driver().complianceMPerN(), 1e-15);
    assertEquals(Wiring.series(Wiring.ohm(0.2), Wiring.coil("one", 1)), world.box().terminals());
    assertEquals(0.1, world.jig().contact().ohm(), 0);
    assertEquals(JigImperfections.ideal().converter(), world.jig().converter());
  }

  @Test
  void readsAMicrophoneBeforeADriverThatFacesTheOutside() {
    String jig = "preset: ideal\n  microphone: {distance_m: 0.02, before: one, rumble_pa: 0.1}";
    Microphone microphone = WorldFile.read(SMALL.replace("preset: ideal", jig)).jig().microphone();
    assertEquals(new Microphone(0.3, 1).inNoise(0, 0.1).before("one", 0.02), microphone);
    WorldFileException lost =
        assertThrows(
            WorldFileException.class,
            () ->
                WorldFile.read(
                    SMALL.replace("preset: ideal", jig.replace("before: one", "before: two"))));
    assertTrue(lost.getMessage().contains("two"), lost.getMessage());
    assertPlain(lost.getMessage());
  }

  @Test
  void readsWhatALiningDoesToTheAir() {
    String lining = "{quality: 5, at_hz: 40, volume_gain_percent: 15, settling_ms: 2}";
    String text = SMALL.replace("litre: 20\n", "litre: 20\n    absorption: " + lining + "\n");
    assertEquals(new HeatExchange(0.15, 2e-3), WorldFile.read(text).box().spaces().get(0).heat());
    assertEquals(
        HeatExchange.NONE,
        WorldFile.read(text.replace(", volume_gain_percent: 15, settling_ms: 2", ""))
            .box()
            .spaces()
            .get(0)
            .heat());
    String tooMuch = text.replace("percent: 15", "percent: 55");
    String message =
        assertThrows(WorldFileException.class, () -> WorldFile.read(tooMuch)).getMessage();
    assertTrue(message.contains("0.55") && message.contains("0.4"), message);
    assertPlain(message);
  }

  @Test
  void readsJsonAsWell() {
    World world =
        WorldFile.read(
            "{\"name\": \"load\", \"about\": \"a resistor\", \"seed\": 4,"
                + " \"wiring\": {\"resistance_ohm\": 10}}");
    assertEquals(Wiring.ohm(10), world.box().terminals());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "volume_litre: 20|volume_liter: 20|line 6|\"volume_liter\" is not a key of a space; the"
            + " keys are absorption, name, volume_litre",
        "seed: 1|#|seed is missing|must be given",
        "volume_litre: 20|volume_litre: much|much|number",
        "re_ohm: 6, bl_tm: 8|re_ohm: &r 6, bl_tm: *r|anchor (&)|write the value itself",
        "{ohm: 0.1}|[0.1]|contact is not of the right form|a group of keys and values",
        "series: [{resistance_ohm: 0.2}, one.1]|series: one.1|series|list",
        "volume_litre: 20|volume_litre: -3|-0.003|between",
        "volume_litre: 20|volume_litre: .nan|.nan|numeric",
        "volume_litre: 20|volume_litre:|volume_litre|no value",
        "mass_gram: 30|fs_hz: 30|fs_hz|either all of",
        "type: any|type: other|\"other\"|any",
        "rear: main|rear: nowhere|nowhere|main, outside",
        "one.1]|one.2]|coil 2 of one|it has 1",
        "one.1]|two.1]|\"two\"|one",
        "one.1]|one.1, one.1]|one.1|twice",
        "one.1]|]]|line|YAML",
        "one.1]|One!]|\"One!\"|reversed",
        "preset: ideal|preset: golden|golden|ideal, nominal, typical",
        "series: [|serial: [|serial|number",
        "about: one driver|name: again|name|Duplicate",
      })
  void refusesInOneSentenceThatNamesPlaceAndLimit(
      String from, String to, String what, String limit) {
    String text = SMALL.replaceFirst(java.util.regex.Pattern.quote(from), to);
    assertFalse(text.equals(SMALL), from);
    String message =
        assertThrows(WorldFileException.class, () -> WorldFile.read(text)).getMessage();
    assertTrue(message.contains(what), message);
    assertTrue(message.contains(limit), message);
    assertPlain(message);
  }

  private static void assertPlain(String message) {
    assertEquals(1, message.lines().count(), message);
    for (String inside :
        new String[] {"Exception", "fasterxml", "conewise.", "java.", "Feature."}) {
      assertFalse(message.contains(inside), message);
    }
  }

  @Test
  void missingFileIsNamed() {
    String message =
        assertThrows(WorldFileException.class, () -> WorldFile.read(Path.of("no-such.yaml")))
            .getMessage();
    assertTrue(message.contains("no-such.yaml") && message.contains("no such file"), message);
  }

  @ParameterizedTest
  @EnumSource(names = {"HERON_COIL_REVERSED", "PLOVER", "DIPPER"})
  void mutatedTextIsAWorldOrASentence(DemoWorld demo) {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println(demo + " mutated with -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    String text = demo.text();
    int refused = 0;
    for (int k = 0; k < 150; k++) {
      String mutated = mutate(text, random);
      try {
        WorldFile.read(mutated).box();
      } catch (WorldFileException expected) {
        refused++;
        assertPlain(expected.getMessage());
      } catch (RuntimeException other) {
        throw new AssertionError("seed " + seed + ", case " + k + ":\n" + mutated, other);
      }
    }
    assertTrue(refused > 15, "seed " + seed + ": only " + refused + " of 150 refused");
  }

  private static String mutate(String text, Random random) {
    StringBuilder changed = new StringBuilder(text);
    int changes = 1 + random.nextInt(3);
    for (int k = 0; k < changes; k++) {
      int place = random.nextInt(changed.length() - 20);
      switch (random.nextInt(4)) {
        case 0 -> changed.deleteCharAt(place);
        case 1 -> changed.insert(place, (char) (32 + random.nextInt(95)));
        case 2 ->
            changed.setCharAt(place, "0123456789-:{}[],.\n \u00e9\t".charAt(random.nextInt(22)));
        default -> changed.insert(place, changed.substring(place, place + random.nextInt(20)));
      }
    }
    return changed.toString();
  }
}
