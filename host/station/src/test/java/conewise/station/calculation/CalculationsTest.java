package conewise.station.calculation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.SchemaCheck;
import conewise.station.calculation.Worked.Cell;
import conewise.station.calculation.Worked.Row;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalculationsTest {
  private static Calculation named(String name) {
    return Calculations.all().stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** From {@code name=value} pairs with semicolons between. */
  private static Map<String, List<String>> texts(String entered) {
    Map<String, List<String>> texts = new LinkedHashMap<>();
    for (String each : entered.split(";", -1)) {
      int equals = each.indexOf('=');
      texts
          .computeIfAbsent(each.substring(0, equals).strip(), key -> new ArrayList<>())
          .add(each.substring(equals + 1));
    }
    return texts;
  }

  private static Worked worked(String name, String entered) throws BadEntryException {
    return named(name).work(texts(entered));
  }

  private static Row row(Worked worked, String id) {
    return worked.rows().stream().filter(each -> each.id().equals(id)).findFirst().orElseThrow();
  }

  private static double value(Worked worked, String id) {
    return ((Found<Double>) row(worked, id).value()).value();
  }

  private static double cell(Worked worked, int line, int column) {
    Cell cell = worked.table().orElseThrow().cells().get(line).get(column);
    return ((Worked.Value) cell).value();
  }

  /**
   * Each figure's source stands at the test of the function behind it; here it is asked for in
   * words and units as people write them. The vent: by hand, S = 78.53982 cm2, c/(2 pi f) = 343.2 /
   * 213.6283 = 1.606529 m, S times its square over 0.06 m3 less the ends, 0.0731063 m, is 0.264728
   * m.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "load | wiring=parallel: [a, b];rated=8ohm | rated_load_ohm | 4",
        "load | wiring=parallel: [a, b];rated=8ohm | least_modulus_ohm | 3.2",
        "load | wiring=parallel: [a, b];dc=6400 mohm | surely_rated_ohm | 4",
        "load | wiring=series: [a, b];rated=4ohm;rated=b=8ohm | rated_load_ohm | 12",
        "load | wiring=series: [a.1, a.2];dc=3ohm;dc=a.2=3.5ohm | dc_resistance_ohm | 6.5",
        "load | wiring=a;rated=3ohm;amplifier=4ohm | over_amplifier | 0.75",
        "coils | drivers=4;each=8ohm;wanted=8ohm | ways | 2",
        "vent | volume=60litres;tuning=34Hz;diameter=10cm | length_mm | 264.728",
        "vent | volume=60litres;length=264.728mm;diameter=10cm | tuning_hz | 34",
        "vent | volume=50 l;length=0.2 m;diameter=3.93701 in;inside=free | tuning_hz | 41.425",
        "air | tuning=34Hz;known-at=68F | sound_m_per_s | 343.2",
        "delay | distance=1ft | delay_ms | 0.88811",
        "delay | delay=10ms;temperature=68F | distance_m | 3.432",
        "delay | phase=90deg;frequency=80Hz | distance_m | 1.0725",
        "two-sources | phase=90deg | level_db | 3.0103",
        "two-sources | distance=1.0725m;frequency=80Hz | level_db | 3.0103",
        "two-sources | second=-6.0206dB | least_db | -6.0206",
        "lead | gauge=12AWG;length=500ft;load=8ohm | lead_ohm | 1.588",
        "lead | gauge=0.0808in;length=500ft;load=8ohm | awg | 12",
        "lead | gauge=AWG 14;length=1m;load=8ohm | awg | 14",
        "lead | gauge=2/0 AWG;length=1m;load=8ohm | diameter_mm | 9.266",
        "lead | gauge=00 awg;length=1m;load=8ohm | diameter_mm | 9.266",
        "lead | gauge=AWG 0;length=1m;load=8ohm | diameter_mm | 8.251",
        "air | tuning=34Hz;known-at=122F;to=122F | sound_m_per_s | 360.33",
        "lead | gauge=2.5mm2;length=10m;load=4ohm | loss_db | 0.29446",
        "lead | loss=0.29446dB;length=10m;load=4ohm | section_mm2 | 2.5",
      })
  void answersWhatHandAndTableSay(String name, String entered, String id, double expected)
      throws BadEntryException {
    assertEquals(
        expected, value(worked(name, entered), id), 5e-4 * expected * Math.signum(expected));
  }

  @Test
  void unitsOfBothKindsGiveTheSameAnswer() throws BadEntryException {
    Worked metric =
        worked("vent", "volume=56.633693184litres;tuning=34Hz;width=254mm;height=25.4mm");
    Worked imperial = worked("vent", "volume=2 cu ft;tuning=34Hz;width=10 in;height=1in");
    assertEquals(value(metric, "length_mm"), value(imperial, "length_mm"), 1e-9);
    Row length = row(metric, "length_mm");
    assertEquals(value(metric, "length_mm") / 25.4, length.other().orElseThrow().value(), 1e-12);
    assertEquals("in", length.other().get().unit());
  }

  @Test
  void aMirrorALongerDuctAndANeighbourAllLowerTheTuning() throws BadEntryException {
    String vent = "volume=60l;length=20cm;diameter=10cm;count=2";
    double alone = value(worked("vent", vent), "tuning_hz");
    for (String more : List.of("inside-gap=0mm", "outside-gap=2cm", "apart=12cm", "inside=flush")) {
      assertTrue(value(worked("vent", vent + ";" + more), "tuning_hz") < alone, more);
    }
  }

  /** Ten kelvin are 1.7 % of a tuning (sqrt of 303.15 / 293.15). */
  @Test
  void aTableOfTemperaturesHasBothScalesAndTheChange() throws BadEntryException {
    Worked table = worked("air", "tuning=34Hz;from=20C;to=30C;rows=2");
    assertEquals(68, cell(table, 0, 1), 1e-9);
    assertEquals(86, cell(table, 1, 1), 1e-9);
    assertEquals(34, cell(table, 0, 4), 1e-9);
    assertEquals(1.69, cell(table, 1, 5), 0.005);
  }

  @Test
  void aSumThatIsNothingIsNoNumber() throws BadEntryException {
    Worked equal = worked("two-sources", "phase=180deg");
    assertInstanceOf(NoResult.class, row(equal, "level_db").value());
    assertInstanceOf(Worked.Words.class, equal.table().orElseThrow().cells().get(12).get(1));
  }

  @Test
  void roundingIsNotShownAsAFigure() throws BadEntryException {
    Worked table = worked("air", "tuning=34Hz;known-at=68F;from=68F;to=86F;rows=2");
    List<String> lines = WorkedText.write(table);
    assertTrue(lines.stream().anyMatch(line -> line.endsWith(" 34  0")), lines.toString());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "load | wiring=parallel: [a, b] | rated, dc or both",
        "load | wiring=parallel: [a, a];rated=8ohm | \"a\" again",
        "load | wiring=parallel: [a, b.2];rated=8ohm | \"b.1\"",
        "load | wiring=parallel: [8, 8];rated=8ohm | \"8\"",
        "load | wiring=parallel: [a;rated=8ohm | not YAML",
        "load | wiring=a;rated=b=8ohm | names \"b\"",
        "load | wiring=a;rated=8ohm;rated=4ohm | 2 times",
        "load | wiring=a;rated=a.1=8ohm;rated=z=8ohm | \"z\"",
        "load | wiring=a;rated=0ohm | out of range",
        "load | rated=8ohm | wiring is missing",
        "coils | drivers=5;coils=2;each=8ohm;wanted=8ohm | 10 coils",
        "coils | drivers=2;each=8ohm;wanted=8ohm | 4 and 16 ohm",
        "coils | drivers=2;each=8ohm;wanted=8ohm;tolerance=5 | 5",
        "vent | volume=60;tuning=34Hz;diameter=10cm | with its unit",
        "vent | volume=60l;tuning=34Hz | diameter",
        "vent | volume=60l;tuning=34Hz;diameter=10cm;width=3cm | either diameter",
        "vent | volume=60l;diameter=10cm | exactly one of tuning, length",
        "vent | volume=60l;tuning=34Hz;length=1cm;diameter=10cm | tuning and length are there",
        "vent | volume=60l;tuning=34Hz;diameter=10cm;count=2;apart=9cm | apart",
        "vent | volume=60l;tuning=34Hz;diameter=10cm;inside=open | free or flush",
        "vent | volume=60l;tuning=300Hz;diameter=10cm | 73.09 Hz",
        "vent | volume=60l;tuning=34Hz;diameter=10cm;humidity=101% | 101%",
        "air | tuning=34Hz;from=20C;to=20C | must be warmer",
        "air | tuning=34Hz;to=140F | out of range",
        "delay | phase=90deg | give frequency",
        "delay | distance=-1m | out of range",
        "delay | distance=NaN m | NaN",
        "two-sources | frequency=80Hz | frequency",
        "two-sources | distance=1m | give frequency",
        "two-sources | second=3 | with its unit",
        "lead | gauge=41AWG;length=1m;load=4ohm | 40 AWG",
        "lead | gauge=5/0AWG;length=1m;load=4ohm | 4/0 AWG",
        "lead | gauge=thick;length=1m;load=4ohm | 14 AWG",
        "lead | gauge=14AWG;loss=1dB;length=1m;load=4ohm | gauge and loss are there",
        "lead | gauge=14AWG;length=1m;load=4ohm;colour=red | \"colour\" is not asked for",
      })
  void whatCannotBeAnsweredIsToldInOneSentence(String name, String entered, String part) {
    String sentence =
        assertThrows(BadEntryException.class, () -> worked(name, entered)).getMessage();
    assertTrue(sentence.contains(part), sentence);
    assertTrue(sentence.endsWith(".") && sentence.lines().count() == 1, sentence);
  }

  @Test
  void entriesAndAnswersHaveNamesOfTheirOwn() {
    for (Calculation each : Calculations.all()) {
      assertTrue(each.name().matches("[a-z]+(-[a-z]+)*"), each.name());
      List<String> names = each.entries().stream().map(Entry::name).toList();
      assertEquals(names.size(), new HashSet<>(names).size(), names.toString());
      assertTrue(each.about().endsWith("."), each.about());
      assertFalse(names.contains("json") || names.contains("help"), names.toString());
    }
  }

  private static final List<String> PIECES =
      List.of(
          "60litres",
          "2 cu ft",
          "34Hz",
          "10cm",
          "4in",
          "0mm",
          "8ohm",
          "4ohm",
          "20C",
          "68F",
          "50%",
          "5 %",
          "2",
          "4",
          "1",
          "0",
          "-3dB",
          "0.2dB",
          "180deg",
          "3ms",
          "14AWG",
          "2.5mm2",
          "1.6mm",
          "free",
          "flush",
          "parallel: [a, b]",
          "series: [a.1, a.2]",
          "a=8ohm",
          "",
          " ",
          "NaN",
          "1e308m",
          "-0Hz",
          "{",
          "[",
          "&x a",
          "reversed: a",
          "\u0007",
          "1e-300ohm",
          "9999999",
          "=",
          "a.1=",
          "AWG",
          "4/0AWG",
          "99AWG",
          "5000000Hz",
          "10 m3",
          "100 %",
          "-20C",
          "122F");

  /** Whatever is typed, there is an answer of finite figures or one sentence. */
  @Test
  void anyTextIsAnsweredOrRefused() throws Exception {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("typed at random: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    SchemaCheck schema = SchemaCheck.named("answer-1");
    int answered = 0;
    for (int i = 0; i < 1_500; i++) {
      Calculation calculation = Calculations.all().get(random.nextInt(Calculations.all().size()));
      Map<String, List<String>> typed = typed(random, calculation);
      String which = "seed " + seed + ", case " + i + ": " + calculation.name() + " " + typed;
      try {
        Worked worked = calculation.work(typed);
        answered++;
        worked.rows().forEach(row -> assertFinite(row, which));
        assertTrue(WorkedText.write(worked).stream().allMatch(line -> line.length() <= 80), which);
        if (answered % 4 == 0) {
          var json = WorkedJson.write(calculation, worked);
          assertEquals(List.of(), schema.problems(json), which);
        }
      } catch (BadEntryException refused) {
        String sentence = refused.getMessage();
        assertTrue(sentence.endsWith(".") && sentence.lines().count() == 1, which + sentence);
      }
    }
    assertTrue(answered > 100, "only " + answered + " were answered, seed " + seed);
  }

  /** Mostly of the right kind, so that some get through. */
  private static Map<String, List<String>> typed(Random random, Calculation calculation) {
    Map<String, List<String>> typed = new LinkedHashMap<>();
    for (Entry entry : calculation.entries()) {
      boolean needed = entry.need() == Entry.Need.REQUIRED;
      if (random.nextInt(needed ? 30 : 3) == 0 != needed) {
        typed.put(entry.name(), List.of(text(random, entry)));
      }
    }
    return typed;
  }

  private static String text(Random random, Entry entry) {
    if (random.nextInt(12) == 0 || entry.form() instanceof Entry.Text) {
      return PIECES.get(random.nextInt(PIECES.size()));
    }
    if (entry.form() instanceof Entry.Figure figure) {
      double value =
          figure.least() + (figure.most() - figure.least()) * Math.pow(random.nextDouble(), 6);
      return value + " " + figure.measure().baseLabel();
    }
    if (entry.form() instanceof Entry.Percent percent) {
      return random.nextInt((int) percent.most() + 1) + "%";
    }
    if (entry.form() instanceof Entry.Whole whole) {
      return whole.least() + random.nextInt(whole.most() - whole.least() + 1) + "";
    }
    List<String> words = ((Entry.Choice) entry.form()).words();
    return words.get(random.nextInt(words.size()));
  }

  private static void assertFinite(Row row, String which) {
    if (row.value() instanceof Found<Double> found) {
      assertTrue(Double.isFinite(found.value()), which + row);
    }
    row.other().ifPresent(other -> assertTrue(Double.isFinite(other.value()), which + row));
  }
}
