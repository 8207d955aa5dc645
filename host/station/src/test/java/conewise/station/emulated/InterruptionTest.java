package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.analysis.excitation.ToneSchedule;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.jig.sweep.SweepState;
import conewise.jig.sweep.ThoroughSweep;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.command.CommandRun;
import conewise.station.measuring.SweepStateFile;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The emulated board rebooted, or its port cut, in mid-sweep: nothing is judged, one sentence says
 * why, and the sweep goes on from where it was. Boards keep step with real time, so other tests run
 * meanwhile.
 */
class InterruptionTest {
  private static final World WORLD = DemoWorld.HERON.load();
  private static final Pattern IN_THE_COMB = Pattern.compile("(\\d+) %  playing all tones");
  private static final int TONES = 7;
  private static final int TONES_BEFORE = 3;
  private static final ThoroughSweep THOROUGH =
      new ThoroughSweep(SweepSettings.standard(), new ToneSchedule(10, 400, TONES, 64e-6, 2));

  /** A difference in two dimensions is farther than this once in 100 000: exp(-k^2/2) = 1e-5. */
  private static final double REGION = 4.8;

  /** What is known so badly that anything would agree with it is not taken for agreement. */
  private static final double WIDEST_FRACTION = 0.05;

  @TempDir private Path folder;

  @BeforeEach
  void requireBoard() throws Exception {
    EmulatedBoard.require();
  }

  @Test
  void aCheckWhoseBoardRebootsIsNotJudgedAndTheBoardAnswersAfterwards() throws Exception {
    try (EmulatedBoard board = start(EmulatedBoard.Pace.REAL)) {
      CommandRun run = CommandRun.watched(onceInTheComb(board::reboot), check(board));
      JsonNode answer = assertNotJudged(run, "The jig restarted in the middle of the session");
      assertEquals("not-judged", answer.get("decision").asText(), run.out());
      assertEquals(0, answer.get("suspects").size(), run.out());
      try (JigClient client = board.connect()) {
        assertEquals("none", client.status().wave());
      }
    }
  }

  @Test
  void aCheckWhosePortIsCutIsNotJudged() throws Exception {
    EmulatedBoard board = start(EmulatedBoard.Pace.REAL);
    CommandRun run = CommandRun.watched(onceInTheComb(board::cut), check(board));
    JsonNode answer = assertNotJudged(run, "The port " + board.port());
    assertEquals("not-judged", answer.get("decision").asText(), run.out());
  }

  @Test
  void aSweepWhosePortIsCutGoesOnFromItsFile() throws Exception {
    EmulatedBoard lost = start(EmulatedBoard.Pace.REAL);
    CommandRun run =
        CommandRun.watched(onceInTheComb(lost::cut), "sweep", "--json", "--port", lost.port());
    JsonNode answer = assertNotJudged(run, "The port " + lost.port());
    Path kept = Path.of(answer.get("resume").asText());
    try (EmulatedBoard board = start(EmulatedBoard.Pace.BRISK)) {
      CommandRun resumed =
          CommandRun.of("sweep", "--json", "--port", board.port(), "--resume", kept.toString());
      assertEquals(0, resumed.exitCode(), resumed.out() + resumed.err());
      CommandRun clean = CommandRun.of("sweep", "--json", "--port", board.port());
      assertEquals(0, clean.exitCode(), clean.out() + clean.err());
      new Pair(points(clean), points(resumed)).assertEqual("quick sweep resumed after a cut");
    } finally {
      Files.deleteIfExists(kept);
    }
  }

  @Test
  void aThoroughSweepWhoseBoardRebootsGoesOnWithoutPlayingAgainWhatIsRead() throws Exception {
    try (EmulatedBoard board = start(EmulatedBoard.Pace.BRISK)) {
      Interrupted interrupted;
      try (JigClient client = board.connect()) {
        interrupted =
            assertInstanceOf(
                Interrupted.class, THOROUGH.run(client, rebootingAfter(TONES_BEFORE, board)));
      }
      assertInstanceOf(JigFault.SessionLost.class, interrupted.fault());
      assertEquals(TONES_BEFORE, interrupted.state().readings().size());
      Path file = folder.resolve("sweep.json");
      SweepStateFile.write(file, interrupted.state());
      SweepState state = SweepStateFile.read(file);
      List<ImpedancePoint> resumed;
      List<ImpedancePoint> clean;
      try (JigClient client = board.connect()) {
        List<String> played = new ArrayList<>();
        resumed =
            points(
                assertInstanceOf(
                    SweepResult.class, THOROUGH.resume(client, state, noting(played))));
        assertEquals(
            TONES - TONES_BEFORE, played.size(), () -> "played after the interruption: " + played);
        clean =
            points(assertInstanceOf(SweepResult.class, THOROUGH.run(client, SweepListener.NONE)));
      }
      new Pair(clean, resumed).assertEqual("thorough sweep resumed after a reboot");
    }
  }

  private EmulatedBoard start(EmulatedBoard.Pace pace) throws Exception {
    return EmulatedBoard.start(folder, WORLD, pace);
  }

  private String[] check(EmulatedBoard board) throws Exception {
    Path plan = folder.resolve("heron.yaml");
    if (!Files.exists(plan)) {
      try (InputStream in =
          InterruptionTest.class.getResourceAsStream("/conewise/plans/heron.yaml")) {
        Files.copy(in, plan);
      }
    }
    String fixed = "check --json --serial E-1 --port " + board.port() + " --plan " + plan;
    return (fixed + " --keep " + folder.resolve("runs")).split(" ", -1);
  }

  /** Acts once, when the comb has been played for a while and not to its end. */
  private static Consumer<String> onceInTheComb(Runnable act) {
    AtomicBoolean done = new AtomicBoolean();
    return words -> {
      Matcher progress = IN_THE_COMB.matcher(words);
      if (progress.find()
          && Integer.parseInt(progress.group(1)) >= 60
          && done.compareAndSet(false, true)) {
        act.run();
      }
    };
  }

  private static SweepListener rebootingAfter(int tones, EmulatedBoard board) {
    AtomicBoolean done = new AtomicBoolean();
    return (fraction, what, soFar) -> {
      if (soFar.points().size() == tones && done.compareAndSet(false, true)) {
        board.reboot();
      }
    };
  }

  /** Notes each tone that is played. */
  private static SweepListener noting(List<String> played) {
    return (fraction, what, soFar) -> {
      if (what.startsWith("holding") && !played.contains(what)) {
        played.add(what);
      }
    };
  }

  /** Exit code 3, one sentence, no stack trace. */
  private static JsonNode assertNotJudged(CommandRun run, String because) throws Exception {
    String all = run.out() + run.err();
    assertEquals(3, run.exitCode(), all);
    assertTrue(all.contains(because), all);
    assertTrue(!all.contains("Exception") && !all.contains("\tat "), all);
    return new ObjectMapper().readTree(run.out());
  }

  private static List<ImpedancePoint> points(SweepResult result) {
    Outcome<ImpedanceCurve> read = result.readCurve();
    assertTrue(read instanceof Outcome.Found<ImpedanceCurve>, read::toString);
    return ((Outcome.Found<ImpedanceCurve>) read).value().points();
  }

  private static List<ImpedancePoint> points(CommandRun run) throws Exception {
    List<ImpedancePoint> points = new ArrayList<>();
    for (JsonNode node : new ObjectMapper().readTree(run.out()).get("curve")) {
      points.add(
          new ImpedancePoint(
              node.get("frequency_hz").asDouble(),
              node.get("resistance_ohm").asDouble(),
              node.get("reactance_ohm").asDouble(),
              Optional.of(
                  ImpedanceUncertainty.circular(node.get("standard_uncertainty_ohm").asDouble()))));
    }
    return points;
  }

  /** Two readings of the same tones, each with its uncertainty. */
  private record Pair(List<ImpedancePoint> clean, List<ImpedancePoint> resumed) {

    void assertEqual(String what) {
      assertEquals(clean.size(), resumed.size(), what);
      double farthest = 0;
      double widest = 0;
      for (int i = 0; i < clean.size(); i++) {
        ImpedancePoint here = clean.get(i);
        ImpedancePoint there = resumed.get(i);
        assertEquals(here.frequencyHz(), there.frequencyHz(), 1e-9 * here.frequencyHz(), what);
        double apartOhm =
            Math.hypot(
                here.resistanceOhm() - there.resistanceOhm(),
                here.reactanceOhm() - there.reactanceOhm());
        double knownOhm = Math.hypot(uncertaintyOhm(here), uncertaintyOhm(there));
        farthest = Math.max(farthest, apartOhm / knownOhm);
        widest = Math.max(widest, knownOhm / here.modulusOhm());
      }
      String figures =
          String.format(
              Locale.ROOT,
              "%s: %d points, the farthest %.2f standard uncertainties of the difference apart,"
                  + " the widest of which is %.2f %%",
              what,
              clean.size(),
              farthest,
              100 * widest);
      System.out.println(figures);
      assertTrue(farthest <= REGION && widest <= WIDEST_FRACTION, figures);
    }

    private static double uncertaintyOhm(ImpedancePoint point) {
      return point.standardUncertaintyOhm().orElseThrow();
    }
  }
}
