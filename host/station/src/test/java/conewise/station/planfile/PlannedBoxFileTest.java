package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import conewise.station.files.BadFileException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlannedBoxFileTest {

  /** Ten lines; a test exchanges some of them. */
  private static final List<String> GOOD =
      List.of(
          "plan: 2",
          "name: Pair",
          "driver_kinds: [{name: ten, coils: [3.4 ohm, 3.5 ohm], resonance: 32 Hz, mechanical_q:"
              + " 5}]",
          "drivers:",
          "  - {name: upper, kind: ten}",
          "  - {name: lower, coils: [6 ohm +- 8 %], inductance: 1.2 mH}",
          "spaces: [{name: main, volume: 60 litres, lined: yes}]",
          "vents: [{name: port, tuning: 34 Hz +- 4 %}]",
          "wiring: {parallel: [{series: [upper.1, {reversed: upper.2}]}, lower]}",
          "limits: {rated_impedance: 4 ohm, tuning: {low: 32.3 Hz, high: 35.7 Hz}}");

  @TempDir Path directory;

  @Test
  void readsEachPartOfAPlan() throws BadFileException {
    PlannedBox plan = PlannedBoxFile.parse("good.yaml", GOOD);
    assertEquals("Pair", plan.name());
    DriverKind ten = plan.kind("ten");
    assertEquals(List.of(new Stated(3.4, 0.05), new Stated(3.5, 0.05)), ten.coilOhm());
    assertEquals(stated(32, 0.12), ten.resonanceHz());
    assertEquals(stated(5, 0.3), ten.mechanicalQ());
    assertEquals(Optional.empty(), ten.electricalQ());
    assertEquals(List.of(new Stated(6, 0.04)), plan.kindOf("lower").coilOhm());
    assertEquals(stated(1.2e-3, 0.6), plan.kindOf("lower").inductanceHenry());
    assertEquals(new PlacedDriver("upper", "ten", "main", "outside"), plan.drivers().get(0));
    assertEquals(List.of(new PlannedSpace("main", stated(0.06, 0.03), true)), plan.spaces());
    assertEquals(
        List.of(new PlannedVent("port", "main", "outside", stated(34, 0.02))), plan.vents());
    assertEquals(
        Circuit.parallel(
            Circuit.series(Circuit.coil("upper", 1), new Circuit.Coil("upper", 2, true)),
            Circuit.coil("lower", 1)),
        plan.wiring());
    assertEquals(0, plan.leadOhm());
    Demands demands = plan.demands();
    assertEquals(Map.of("main", new Interval(32.3, 35.7)), demands.tuningHz());
    assertEquals(Optional.of(4.0), demands.ratedImpedanceOhm());
    assertEquals(0.1, demands.dcToleranceFraction(), "10 % where nothing is said");
  }

  @ParameterizedTest
  @CsvSource({"sealed, 1, 0", "vented, 1, 1", "none, 0, 0"})
  void aPlanMayHaveNothingButCoils(String box, int spaces, int vents) throws BadFileException {
    PlannedBox plan =
        plan(
            "plan: 2",
            "name: x",
            "box: " + box,
            "drivers: [{name: a, coils: [4 ohm]}]",
            "wiring: a");
    assertEquals(spaces, plan.spaces().size());
    assertEquals(vents, plan.vents().size());
    assertTrue(plan.model().conducts());
  }

  @Test
  void turningAGroupRoundTwiceLeavesItAsItWas() throws BadFileException {
    List<String> lines = new ArrayList<>(GOOD);
    lines.set(
        8, "wiring: {reversed: {parallel: [{reversed: {series: [upper.1, upper.2]}}, lower]}}");
    assertEquals(
        Circuit.parallel(
            Circuit.series(Circuit.coil("upper", 1), Circuit.coil("upper", 2)),
            new Circuit.Coil("lower", 1, true)),
        PlannedBoxFile.parse("p.yaml", lines).wiring());
  }

  /** Small (1972): of fs, Mms and Cms two give the third; Vas = rho c^2 Sd^2 Cms. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "moving_mass: 44.459 g, compliance: 1.18 mm/N",
        "moving_mass: 44.459 g, resonance: 21.974 Hz",
        "resonance: 21.974 Hz, compliance: 1.18e-3 m/N",
      })
  void worksOutWhatADatasheetLeavesOut(String known) throws BadFileException {
    DriverKind kind =
        kind(
            "coils: [7 ohm], cone_area: 452.389 cm2, mechanical_q: 3.3179, total_q: .30066, "
                + known);
    // Solved beforehand on a circuit: 21.974 Hz, Qes .33062; Vas 340.94 litres at rho 1.2, c 343,
    // which is 340.94 (1.204 343.2^2) / (1.2 343^2) = 342.49 litres at 20 degrees Celsius.
    assertEquals(21.974, kind.resonanceHz().orElseThrow().value(), 0.001);
    assertEquals(0.33062, kind.electricalQ().orElseThrow().value(), 0.00002);
    assertEquals(0.34249, kind.equivalentVolumeM3().orElseThrow().value(), 0.00005);
  }

  @Test
  void aTotalQAloneStandsForAnElectricalOneALittleAbove() throws BadFileException {
    assertEquals(stated(0.55, 0.15), kind("coils: [7 ohm], total_q: 0.5").electricalQ());
    assertEquals(Optional.empty(), kind("coils: [7 ohm], total_q: 0.5").mechanicalQ());
  }

  @Test
  void aMechanicalQFollowsFromTheOtherTwo() throws BadFileException {
    // 1 / (1/0.4 - 1/0.44) = 4.4.
    DriverKind kind = kind("coils: [7 ohm], total_q: 0.4, electrical_q: 0.44 +- 10 %");
    assertEquals(4.4, kind.mechanicalQ().orElseThrow().value(), 1e-12);
    assertEquals(stated(0.44, 0.05), kind.electricalQ());
  }

  @Test
  void limitsStandByPairByToleranceOrForEachSpace() throws BadFileException {
    List<String> lines = new ArrayList<>(GOOD);
    lines.set(4, "  - {name: upper, kind: ten, behind: main}");
    lines.set(5, "  - {name: lower, coils: [6 ohm], behind: rear}");
    lines.set(6, "spaces: [{name: main}, {name: rear}]");
    lines.set(7, "vents: [{name: port, behind: main}, {name: pipe, behind: rear}]");
    lines.set(
        9,
        "limits: {dc_resistance: 3 ohm +- 10 %, tuning: {main: 40 Hz +- 5 %, rear: {low: 30 Hz}},"
            + " least_loss_q: {rear: 6}}");
    Demands demands = PlannedBoxFile.parse("p.yaml", lines).demands();
    assertEquals(2.7, demands.dcResistanceOhm().orElseThrow().low(), 1e-12);
    assertEquals(3.3, demands.dcResistanceOhm().orElseThrow().high(), 1e-12);
    assertEquals(
        Map.of("main", new Interval(38, 42), "rear", Interval.atLeast(30)), demands.tuningHz());
    assertEquals(Map.of("rear", 6.0), demands.leastLossQ());
  }

  @ParameterizedTest
  @ValueSource(strings = {"heron", "wren", "plover", "dipper", "kestrel"})
  void readsThePlansThatComeWithTheApplicationByBareName(String name) throws BadFileException {
    PlannedBox plan = PlannedBoxFile.read(Path.of(name));
    assertTrue(plan.name().toLowerCase(Locale.ROOT).startsWith(name), plan.name());
    assertEquals(PlannedBoxFile.bundled(name), plan);
    assertTrue(plan.model().conducts());
    assertTrue(PlannedBoxFile.BUNDLED.contains(name));
  }

  @Test
  void namesThePlansThatComeAlongWhenAskedForAnother() {
    String message =
        assertThrows(BadFileException.class, () -> PlannedBoxFile.bundled("nowhere")).getMessage();
    assertTrue(message.contains("nowhere") && message.contains("heron"), message);
  }

  @Test
  void readsJsonAndMarkedWindowsText() throws Exception {
    String json =
        "\uFEFF{\"plan\": 2,\r\n\t\"name\": \"One\", \"box\": \"sealed\",\r\n"
            + "\"drivers\": [{\"name\": \"w\", \"coils\": [\"5.5 ohm\"]}], \"wiring\": \"w\"}";
    Path file = Files.writeString(directory.resolve("plan.txt"), json);
    assertEquals(Circuit.coil("w", 1), PlannedBoxFile.read(file).wiring());
  }

  // A line of GOOD, what it is exchanged for, and pieces of the sentence.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "1 | plan: 1 | line 1: plan is the number \"1\" | from 2 to 2",
        "1 | # none | plan is missing | 2, the version",
        "2 | name: 12 | line 2: name is the number | quotes",
        "5 | `  - {name: upper, kind: tin}` | line 5: drivers.kind is the text \"tin\" | ten is"
            + " near",
        "5 | `  - {name: upper, kind: ten, coils: [3 ohm]}` | line 5: drivers has kind and coils |"
            + " driver_kinds",
        "5 | `  - {kind: ten}` | line 5: drivers needs a name | list of names",
        "5 | `  - {names: [], kind: ten}` | line 5: drivers.names is an empty list | at least 1",
        "5 | `  - {name: ten, coils: [3 ohm, 3 ohm]}` | line 5: drivers has ten without kind |"
            + " another name",
        "5 | `  - {name: port, kind: ten}` | \"port\", which is taken | a name of its own",
        "5 | `  - {name: leads, kind: ten}` | \"leads\", which is taken | a name of its own",
        "5 | `  - {name: u.p, kind: ten}` | line 5: drivers.name is \"u.p\" | a letter first",
        "5 | `  - {name: upper, kind: ten, behind: mai}` | line 5: drivers.behind is | main is"
            + " near",
        "5 | `  - {name: upper, kind: ten, before: main}` | both sides of the driver | differ",
        "6 | `  - {name: lower, coils: [6]}` | line 6: drivers.coils is the number \"6\" | (ohm,"
            + " mohm)",
        "6 | `  - {name: lower, coils: [6 litres]}` | drivers.coils is the text \"6 litres\" | such"
            + " as 12 ohm, 0.1 to 1000 ohm",
        "6 | `  - {name: lower, coils: [2000 ohm]}` | out of range | allowed is 0.1 to 1000 ohm",
        "6 | `  - {name: lower, coils: 6 ohm}` | line 6: drivers.coils is the text | list of 1 to"
            + " 4",
        "6 | `  - {name: lower, coils: [6 ohm], resonance: 32}` | drivers.resonance is the number |"
            + " such as 32 Hz",
        "6 | `  - {name: lower, coils: [6 ohm], resonance: 32 Hz +- 10}` | drivers.resonance is |"
            + " 32 Hz +- 10 %",
        "6 | `  - {name: lower, coils: [6 ohm], resonance: 30 Hz, moving_mass: 44 g, compliance:"
            + " 1.18 mm/N}` | drivers.resonance is 30.0 Hz, and moving_mass and compliance gives"
            + " 22.1 | within 5 %",
        "6 | `  - {name: lower, coils: [6 ohm], moving_mass: 0.1 g, compliance: 0.001 mm/N}` |"
            + " follows from moving_mass | 1.59e+04 Hz",
        "6 | `  - {name: lower, coils: [6 ohm], equivalent_volume: 34 litres, compliance: 1.18"
            + " mm/N, cone_area: 452 cm2}` | drivers.equivalent_volume is 0.0340 m3 | within 20 %",
        "6 | `  - {name: lower, coils: [6 ohm], moving_mass: 44 g +- 5 %}` | drivers.moving_mass is"
            + " | a tolerance has no place",
        "6 | `  - {name: lower, coils: [6 ohm], total_q: 0.4, mechanical_q: 5, electrical_q: 0.5}`"
            + " | line 6: drivers.total_q is 0.4, and | give 0.455",
        "6 | `  - {name: lower, coils: [6 ohm], total_q: 0.6, electrical_q: 0.5}` | beside another"
            + " Q of 0.5 | it must lie below that",
        "6 | `  - {name: lower, coils: [6 ohm], qts: 0.4}` | line 6: the key \"qts\" is not known"
            + " in drivers | total_q",
        "7 | `# no air` | box and spaces are missing | sealed or vented or none",
        "7 | `spaces: []` | line 7: spaces is an empty list | box: none",
        "7 | `spaces: [{name: main}, {name: spare}]` | line 5: drivers.behind is missing | main,"
            + " spare",
        "7 | `spaces: [{name: outside}]` | \"outside\", which is taken | a name of its own",
        "7 | `spaces: [{name: main, volume: 60}]` | line 7: spaces.volume is the number | litres",
        "7 | `spaces: [{name: main, volume: 60 l, lined: thinly}]` | line 7: spaces.lined | yes or"
            + " no",
        "7 | `box: vented` | line 7: box says in one word what vents says | keep one",
        "8 | `vents: [{name: port, before: main}]` | line 8: vents.before is the space behind it |"
            + " differ",
        "8 | `vents: [{name: port, behind: outside}]` | line 8: vents.behind must | a space",
        "8 | `vents: [{name: port, tuning: 34 Hz, size: {diameter: 1 in, length: 2 in}}]` | vents"
            + " has tuning and size | keep one",
        "8 | `vents: [{name: port, size: {diameter: 1 in}}]` | vents.size needs length and | slot",
        "8 | `vents: [{name: port, size: {diameter: 2 in, height: 1 in, length: 2 in}}]` |"
            + " vents.size needs length and | either diameter",
        "8 | `vents: [{name: port, size: {diameter: 2 in, length: 2 in, count: 1.5}}]` |"
            + " vents.size.count is 1.5 | whole",
        "8 | `vents: [{name: port, size: {diameter: 1 mm, length: 5 m}}]` | vents.size tunes its"
            + " space to 0.0 | 1 to 1000 Hz",
        "9 | `wiring: {parallel: [{series: [upper.1, upper.2]}, lover]}` | line 9: wiring names the"
            + " driver \"lover\" | lower is near",
        "9 | `wiring: {parallel: [{series: [upper.1, upper.3]}, lower]}` | wiring names the coil |"
            + " upper.1 to upper.2",
        "9 | `wiring: {series: [upper.1, lower]}` | wiring never uses the coil \"upper.2\" | join",
        "9 | `wiring: {series: [upper.1, upper.2, {reversed: upper.2}, lower]}` | wiring uses the"
            + " coil \"upper.2\" again | once",
        "9 | `wiring: {series: [upper, lower]}` | wiring names the coil \"upper\" | upper.1 to",
        "9 | `wiring: {flipped: upper.1}` | line 9: the key \"flipped\" is not known | reversed",
        "10 | `leads: 0.05` | line 10: leads is the number | ohm, mohm",
        "10 | `leads: 11 ohm` | line 10: leads is the text \"11 ohm\", out of range | 0 to 10 ohm",
        "10 | `limits: {tuning: 34 Hz}` | line 10: limits.tuning is | low and high, or a tolerance",
        "10 | `limits: {tuning: {low: 36 Hz, high: 30 Hz}}` | limits.tuning has low above high |"
            + " mend",
        "10 | `limits: {tuning: {}}` | limits.tuning | which space",
        "10 | `limits: {closed_resonance: {low: 30 Hz}}` | limits.closed_resonance is asked |"
            + " closed",
        "10 | `limits: {dc_tolerance: 5}` | limits.dc_tolerance is the number \"5\" | such as 8 %",
        "10 | `limits: {dc_tolerance: 60 %}` | limits.dc_tolerance | 0.1 to 50",
        "10 | `limits: {dc_tolerance: 5 %, dc_resistance: {low: 1 ohm}}` | limits has dc_resistance"
            + " and dc_tolerance | keep one",
        "10 | `limits: {least_loss_q: 7 ohm}` | limits.least_loss_q is the text | 0.5 to 1000",
      })
  void tellsEachMistakeByItsLine(int line, String text, String first, String second) {
    List<String> lines = new ArrayList<>(GOOD);
    lines.set(line - 1, text);
    String message = refusal(lines);
    assertTrue(message.contains(first) && message.contains(second), message);
    assertTrue(message.startsWith("bad.yaml, line "), message);
  }

  @Test
  void tellsAllMistakesOfAFileAndNoneThatOnlyFollows() {
    List<String> lines = new ArrayList<>(GOOD);
    lines.set(2, "driver_kinds: [{name: ten, coils: [3.4, 3.5 ohm]}]");
    lines.set(5, "  - {name: lower, coils: [6 ohm], colour: red, resonance: 2 kHz}");
    lines.set(6, "spaces: [{name: main, volume: 60 pints}]");
    lines.set(9, "limits: {tuning: {low: 32.3, hihg: 35 Hz}}");
    BadFileException bad =
        assertThrows(BadFileException.class, () -> PlannedBoxFile.parse("bad.yaml", lines));
    assertEquals(
        List.of("line 3", "line 6", "line 6", "line 7", "line 10", "line 10"),
        bad.problems().stream().map(p -> p.split(":", 2)[0].split(", ", 2)[1]).toList(),
        bad.getMessage());
  }

  @Test
  void tellsOfAnotherVersionNothingButThat() {
    BadFileException bad =
        assertThrows(
            BadFileException.class,
            () ->
                PlannedBoxFile.parse(
                    "old.yaml", List.of("plan: 1", "name: x", "lead_ohm: 3", "colour: red")));
    assertEquals(1, bad.problems().size(), bad.getMessage());
  }

  @Test
  void refusesAPlanThatIsTooLargeOrNoPlan() throws Exception {
    Path large = Files.writeString(directory.resolve("large.yaml"), "# x\n".repeat(20_000));
    assertTrue(message(large).contains("65536"), "the limit is said");
    Path comments = Files.writeString(directory.resolve("c.yaml"), "# nothing\n");
    assertTrue(message(comments).contains("plan: 2"), message(comments));
    assertTrue(message(directory).contains("is a directory"), "a directory");
    assertTrue(message(Path.of("heorn")).contains("heorn"), message(Path.of("heorn")));
  }

  private static String message(Path file) {
    return assertThrows(BadFileException.class, () -> PlannedBoxFile.read(file)).getMessage();
  }

  private static String refusal(List<String> lines) {
    return assertThrows(BadFileException.class, () -> PlannedBoxFile.parse("bad.yaml", lines))
        .getMessage();
  }

  private static PlannedBox plan(String... lines) throws BadFileException {
    return PlannedBoxFile.parse("p.yaml", List.of(lines));
  }

  private static DriverKind kind(String figures) throws BadFileException {
    return plan(
            "plan: 2", "name: x", "box: none", "drivers: [{name: a, " + figures + "}]", "wiring: a")
        .kindOf("a");
  }

  private static Optional<Stated> stated(double value, double spread) {
    return Optional.of(new Stated(value, spread));
  }
}
