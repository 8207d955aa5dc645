package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.PlannedDriver;
import conewise.analysis.plan.Wiring;
import conewise.station.files.BadFileException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlanFileTest {

  /** Ten lines; a test exchanges some of them. */
  private static final List<String> GOOD =
      List.of(
          "plan: 1",
          "name: Pair",
          "box: vented",
          "spaces: shared",
          "drivers:",
          "  - {name: upper, coil_ohm: [3.4, 3.5], resonance_hz: 32}",
          "  - {name: lower, coil_ohm: [6]}",
          "wiring: {parallel: [{series: [upper.1, upper.2]}, lower]}",
          "lead_ohm: 0.05",
          "limits: {tuning_hz: {low: 32.3, high: 35.7}, dip_ratio: {high: 1.3}}");

  @TempDir Path directory;

  @Test
  void readsEachPartOfAPlan() throws BadFileException {
    BoxPlan plan = PlanFile.parse("good.yaml", GOOD);
    assertEquals("Pair", plan.name());
    assertEquals(BoxPlan.Kind.VENTED, plan.kind());
    assertEquals(
        List.of(
            new PlannedDriver("upper", List.of(3.4, 3.5), Optional.of(32.0)),
            new PlannedDriver("lower", List.of(6.0), Optional.empty())),
        plan.drivers());
    Wiring upper =
        new Wiring.Series(List.of(new Wiring.Coil("upper", 1), new Wiring.Coil("upper", 2)));
    assertEquals(new Wiring.Parallel(List.of(upper, new Wiring.Coil("lower", 1))), plan.wiring());
    assertEquals(0.05, plan.leadOhm());
    assertEquals(Optional.of(new Interval(32.3, 35.7)), plan.limits().tuningHz());
    assertEquals(Optional.of(Interval.atMost(1.3)), plan.limits().dipRatio());
    assertEquals(Optional.empty(), plan.limits().peakRatio());
    assertEquals(0.1, plan.limits().dcToleranceFraction(), "10 % where nothing is said");
  }

  @Test
  void readsJsonAndMarkedWindowsText() throws Exception {
    String json =
        "\uFEFF{\"plan\": 1,\r\n\t\"name\": \"One\", \"box\": \"sealed\",\r\n"
            + "\"drivers\": [{\"name\": \"woofer\", \"coil_ohm\": [5.5]}], \"wiring\": \"woofer\"}";
    for (String name : List.of("plan.json", "plan.txt")) {
      BoxPlan plan = PlanFile.read(Files.writeString(directory.resolve(name), json));
      assertEquals(new Wiring.Coil("woofer", 1), plan.wiring());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"heron", "wren", "plover", "dipper", "kestrel"})
  void readsThePlansThatComeWithTheApplication(String name) throws BadFileException {
    BoxPlan plan = PlanFile.bundled(name);
    assertTrue(plan.name().toLowerCase(java.util.Locale.ROOT).startsWith(name), plan.name());
    assertEquals(name.equals("plover"), plan.separateSpaces());
  }

  @Test
  void saysThatAPlanDoesNotComeWithTheApplication() {
    assertThrows(BadFileException.class, () -> PlanFile.bundled("nowhere"));
  }

  // A line of GOOD, what it is exchanged for, and pieces of the sentence.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "1 | plan: 2 | line 1: plan is the number \"2\" | from 1 to 1",
        "1 | plan: one | line 1: plan is the text | from 1 to 1",
        "1 | # no version | plan is missing | 1, the version",
        "2 | nam: Pair | \"nam\" is not known; name is near | name is missing",
        "2 | name: 12 | line 2: name is the number \"12\" | quotes",
        "2 | name: [a] | line 2: name is a list of 1 | 1 to 100",
        "2 | name: ~ | line 2: name is nothing | 1 to 100",
        "3 | box: vente | line 3: box is the text \"vente\" | vented or sealed",
        "3 | box: sealed | line 10: limits.tuning_hz belongs to a vented box | limits.dip_ratio",
        "4 | spaces: 2 | line 4: spaces is the number | shared or separate",
        "4 | name: again | line 4: the key \"name\" stands on line 2 already | keep one",
        "4 | ~tab: 1 | line 4 | tab",
        "6 | `  - {name: upper, coil_ohm: [0], resonance_hz: 3}` | line 6: drivers.coil_ohm is the"
            + " number \"0\" | 0.1 to 1000",
        "6 | `  - {name: upper, coil_ohm: [-3, 4], resonance_hz: 3}` | line 6 | \"-3\"",
        "6 | `  - {name: upper, coil_ohm: 3.4}` | line 6: drivers.coil_ohm is the number | [3.4,"
            + " 3.4]",
        "6 | `  - {name: upper, coil_ohm: []}` | line 6: drivers.coil_ohm is a list of 0 | 1 to 4",
        "6 | `  - {name: upper, coil_ohm: ['3.4']}` | line 6: drivers.coil_ohm is the text \"3.4\""
            + " | a number",
        "6 | `  - {name: upper, coil_ohm: [.inf]}` | line 6: drivers.coil_ohm is | a number",
        "6 | `  - {name: upper, coil_ohm: [.nan]}` | line 6: drivers.coil_ohm is | a number",
        "6 | `  - {name: upper, coil_ohm: [0x4]}` | line 6: drivers.coil_ohm is | a number",
        "6 | `  - {name: up.er, coil_ohm: [3]}` | line 6: drivers.name is \"up.er\" | a letter"
            + " first",
        "6 | `  - {name: lower, coil_ohm: [3]}` | line 7: drivers.name is \"lower\" a second time |"
            + " its own",
        "6 | `  - {name: upper, coil_ohms: [3, 4]}` | coil_ohm is near | coil_ohm is missing",
        "6 | `  - upper` | line 6: drivers is the text \"upper\" | name, coil_ohm, resonance_hz",
        "7 | `  - {name: lower, coil_ohm: [6, 6]}` | line 8: wiring names the coil \"lower\" |"
            + " lower.1 to lower.2",
        "8 | `wiring: {parallel: [{series: [upper.1, upper.2]}, lover]}` | line 8: wiring names the"
            + " driver \"lover\" | lower is near",
        "8 | `wiring: {parallel: [{series: [upper.1, upper.3]}, lower]}` | line 8: wiring names the"
            + " coil \"upper.3\" | upper.1 to upper.2",
        "8 | `wiring: {parallel: [{series: [upper.1, upper.1]}, lower]}` | line 8: wiring uses the"
            + " coil \"upper.1\" again | used once",
        "8 | `wiring: {parallel: [upper.1, lower]}` | line 8: wiring never uses the coil"
            + " \"upper.2\" | join every coil",
        "8 | `wiring: {parallel: [lower]}` | line 8: wiring.parallel is a list of 1 | 2 parts",
        "8 | `wiring: {paralel: [lower, upper.1]}` | line 8: the key \"paralel\" is not known |"
            + " parallel is near",
        "8 | `wiring: [lower, upper.1]` | line 8: wiring has a list of 2 | series or parallel",
        "9 | lead_ohm: -0.05 | line 9: lead_ohm is the number \"-0.05\" | from 0 to 10",
        "9 | `lead_ohm: 0,05` | line 9: lead_ohm is | decimal point",
        "10 | `limits: {tuning_hz: {low: 36, high: 35}}` | line 10: limits.tuning_hz has low 36.0"
            + " above high 35.0 | mend",
        "10 | `limits: {tuning_hz: {}}` | line 10: limits.tuning_hz has neither | give one",
        "10 | `limits: {tuning_hz: 34}` | line 10: limits.tuning_hz is the number | low, high",
        "10 | `limits: {tuning: {low: 34}}` | line 10: the key \"tuning\" is not known in limits |"
            + " tuning_hz is near",
        "10 | `limits: {resonance_hz: {low: 34}}` | line 10: limits.resonance_hz belongs to a"
            + " sealed box | take it out",
        "10 | `limits: {dc_resistance_ohm: {low: 3}, dc_tolerance_percent: 5}` | line 10: limits"
            + " has dc_resistance_ohm and | keep one",
        "10 | `limits: {dc_tolerance_percent: 0}` | line 10 | from 0.1 to 50",
        "8 | `wiring: &a {parallel: [{series: [upper.1, upper.2]}, lower]}` | line 8: an anchor |"
            + " write the value",
        "9 | `lead_ohm: *a` | line 9: an anchor | write the value",
        "9 | `lead_ohm: !!float 1` | line 9: an anchor | write the value",
        "9 | `lead_ohm: [1` | this is not YAML | mend the line",
        "9 | `---` | line 10: a second document | one plan",
      })
  void tellsEachMistakeByItsLine(int line, String text, String first, String second) {
    List<String> lines = new java.util.ArrayList<>(GOOD);
    lines.set(line - 1, text.replace("~tab", "\ttab"));
    String message = refusal("bad.yaml", lines);
    assertTrue(message.contains(first) && message.contains(second), message);
    assertTrue(message.startsWith("bad.yaml, line "), message);
  }

  @Test
  void tellsAllMistakesOfAFileInTheirOrder() {
    List<String> lines = new java.util.ArrayList<>(GOOD);
    lines.set(2, "box: round");
    lines.set(6, "  - {name: lower, coil_ohm: [6], colour: red}");
    lines.set(8, "lead_ohm: 11");
    lines.set(9, "limits: {dip_ratio: {hihg: 1.3}}");
    BadFileException bad =
        assertThrows(BadFileException.class, () -> PlanFile.parse("bad.yaml", lines));
    List<String> wheres = bad.problems().stream().map(problem -> problem.split(":", 2)[0]).toList();
    assertEquals(
        List.of(
            "bad.yaml, line 3",
            "bad.yaml, line 7",
            "bad.yaml, line 9",
            "bad.yaml, line 10",
            "bad.yaml, line 10"),
        wheres,
        bad.getMessage());
  }

  @Test
  void refusesSeparateSpacesForOneDriver() {
    List<String> lines =
        List.of(
            "plan: 1",
            "name: x",
            "box: sealed",
            "spaces: separate",
            "drivers: [{name: a, coil_ohm: [4]}]",
            "wiring: a");
    assertTrue(refusal("p.yaml", lines).contains("line 4"), "its line");
  }

  @Test
  void refusesABombOfAliasesAndADeepNestQuickly() {
    List<String> bomb = new java.util.ArrayList<>(List.of("a: &a [x,x,x,x,x,x,x,x,x]"));
    for (char c = 'b'; c <= 'z'; c++) {
      bomb.add(c + ": &" + c + " [" + ("*" + (char) (c - 1) + ",").repeat(8) + "x]");
    }
    assertTrue(refusal("bomb.yaml", bomb).contains("anchor"), "anchors are refused");
    List<String> nest = List.of("wiring: " + "[".repeat(1500) + "]".repeat(1500));
    assertTrue(refusal("nest.yaml", nest).contains("nested"), "depth is limited");
    assertTrue(refusal("nest.json", List.of("[".repeat(3000))).contains("nested"), "in JSON too");
  }

  @Test
  void refusesAPlanThatIsTooLargeOrNoPlan() throws Exception {
    Path large = Files.writeString(directory.resolve("large.yaml"), "# x\n".repeat(20_000));
    assertTrue(message(large).contains("65536"), "the limit is said");
    Path table = Files.writeString(directory.resolve("t.csv"), "frequency_hz,r\n20,1\n");
    assertTrue(message(table).contains("must be a group of the keys plan, name"), message(table));
    Path comments = Files.writeString(directory.resolve("c.yaml"), "# nothing\n");
    assertTrue(message(comments).contains("plan: 1"), message(comments));
    assertTrue(message(directory).contains("is a directory"), "a directory");
  }

  private static String message(Path file) {
    return assertThrows(BadFileException.class, () -> PlanFile.read(file)).getMessage();
  }

  private static String refusal(String name, List<String> lines) {
    return assertThrows(BadFileException.class, () -> PlanFile.parse(name, lines)).getMessage();
  }
}
