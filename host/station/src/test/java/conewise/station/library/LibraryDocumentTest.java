package conewise.station.library;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.parameter.DriverFigures;
import conewise.protocol.link.ByteLink;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.World;
import conewise.simulator.world.WorldFile;
import conewise.station.command.CommandRun;
import conewise.station.planfile.PlannedBoxFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What docs/library.md shows is the code of this package, and does what it says. */
class LibraryDocumentTest {
  private static final Path ROOT = Path.of("..", "..");
  private static final Pattern SHOWN =
      Pattern.compile("<!-- example: ([^>]*) -->\\n```java\\n(.*?)```", Pattern.DOTALL);
  private static final Pattern MARKED =
      Pattern.compile("  // begin: ([^\\n]*)\\n(.*?)  // end\\n", Pattern.DOTALL);

  @TempDir Path folder;

  @Test
  void theDocumentShowsTheCodeThatIsTested() throws Exception {
    Set<String> code = new TreeSet<>();
    for (String name : new String[] {"MeasureAndJudge", "FitFromFile", "ColdBox"}) {
      Path file = Path.of("src/test/java/conewise/station/library", name + ".java");
      Matcher marked = MARKED.matcher(Files.readString(file));
      assertTrue(marked.find(), name);
      code.add(marked.group(1) + "\n" + marked.group(2).replaceAll("(?m)^  ", ""));
    }
    Set<String> shown = new TreeSet<>();
    Matcher example = SHOWN.matcher(Files.readString(ROOT.resolve("docs/library.md")));
    while (example.find()) {
      shown.add(example.group(1) + "\n" + example.group(2));
    }
    assertEquals(code, shown);
  }

  private static String heron() throws Exception {
    try (var in = World.class.getResourceAsStream("/conewise/worlds/heron.yaml")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static ByteLink jig(String world) {
    return new MemoryLink(new VirtualJig(WorldFile.read(world).start(), JigSetup.standard()));
  }

  /** A suspension stiffer by half: fs and Qes times its root, Vas over it (Small, 1972). */
  private static String cold(String world) {
    return world
        .replace("fs_hz: 32", "fs_hz: 39.2")
        .replace("qes: 0.62", "qes: 0.759")
        .replace("vas_litre: 29.5", "vas_litre: 19.67");
  }

  private static boolean toldAsCold(Verdict verdict) {
    return !verdict.suspects().isEmpty()
        && verdict.suspects().get(0).faults().stream().anyMatch(each -> each.contains("cold"));
  }

  @Test
  void aGoodBoxIsNotTakenForColdByAJudgeWhoKnowsOfTheCold() throws Exception {
    var plan = PlannedBoxFile.bundled("heron");
    Verdict verdict = MeasureAndJudge.judged(jig(heron()), plan, ColdBox.judge());
    assertTrue(verdict.decision() != Decision.FAIL, verdict.headline());
    assertTrue(!toldAsCold(verdict), verdict.suspects().toString());
  }

  @Test
  void aColdBoxDoesNotPassAndIsToldAsColdWithWhatToDo() throws Exception {
    String cold = cold(heron());
    assertTrue(!cold.equals(heron()));
    Verdict verdict =
        MeasureAndJudge.judged(jig(cold), PlannedBoxFile.bundled("heron"), ColdBox.judge());
    assertTrue(verdict.decision() != Decision.PASS, verdict.toString());
    assertTrue(toldAsCold(verdict), verdict.suspects().toString());
    assertTrue(verdict.suspects().get(0).probability() > 0.8, verdict.suspects().toString());
    assertTrue(verdict.action().orElse("").contains("warm"), verdict.action().toString());
    String headline = verdict.headline();
    String shown = Files.readString(ROOT.resolve("docs/library.md")).replace('\n', ' ');
    assertTrue(shown.contains(headline), "the document does not say: " + headline);
  }

  /** The world states fs 29 Hz and Qts 0.4444. */
  @Test
  void aTableOfABareDriverGivesItsParameters() throws Exception {
    Path table = folder.resolve("free.csv");
    String world = ROOT.resolve("docs/examples/bittern.yaml").toString();
    CommandRun sweep = CommandRun.of("sweep", "--virtual", world, "--out", table.toString());
    assertEquals(0, sweep.exitCode(), sweep.err());
    Outcome<DriverFigures> fitted = FitFromFile.figures(table, 1);
    assertInstanceOf(Found.class, fitted, fitted.toString());
    DriverFigures figures = ((Found<DriverFigures>) fitted).value();
    assertHolds(29, figures.resonanceHz());
    assertHolds(0.4444, figures.totalQ());
  }

  private static void assertHolds(double truth, Outcome<Estimate> outcome) {
    assertInstanceOf(Found.class, outcome, outcome.toString());
    Estimate estimate = ((Found<Estimate>) outcome).value();
    assertTrue(estimate.interval().contains(truth), estimate.toString());
    assertTrue(estimate.relativeWidth() < 0.05, estimate.toString());
  }
}
