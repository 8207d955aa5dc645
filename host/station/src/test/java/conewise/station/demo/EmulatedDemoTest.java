package conewise.station.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.judgement.Verdict;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.CalibrationStep;
import conewise.station.calibrating.Clips;
import conewise.station.emulated.EmulatedBoard;
import conewise.station.judging.Judging;
import conewise.station.measuring.StopRequest;
import conewise.station.planfile.PlannedBoxFile;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The demo's boxes on the demo's jig, calibrated and swept through the real firmware on the
 * emulated board as through the virtual jig: the same verdict on each. Noise and hum are on, and
 * each side has its own.
 */
class EmulatedDemoTest {
  private static final double RESISTOR_OHM = 10;
  private static final double RESISTOR_TOLERANCE = 0.001;
  private static final int BENCHES = 2;
  private static final long LIMIT_SECONDS = 120;

  private final JigImperfections jig = DemoWorld.HERON.load().jig();

  @TempDir private Path folder;

  @BeforeEach
  void requireBoard() throws Exception {
    EmulatedBoard.require();
  }

  @Test
  void eachBoxGetsTheVerdictThatItGetsOnTheVirtualJig() throws Exception {
    Map<String, Verdict> virtual = virtual();
    SweepSettings settings = SweepSettings.standard().with(calibrate());
    Map<String, Verdict> emulated = emulated(settings);
    List<String> here = new ArrayList<>();
    List<String> there = new ArrayList<>();
    for (DemoBox box : DemoBox.values()) {
      here.add(said(box, virtual.get(box.serial())));
      there.add(said(box, emulated.get(box.serial())));
      System.out.println("emulated board: " + there.get(there.size() - 1));
    }
    assertEquals(String.join("\n", here), String.join("\n", there));
  }

  /** Two boards at a time, since each waits for real time to pass. */
  private Map<String, Verdict> emulated(SweepSettings settings) throws Exception {
    ExecutorService benches = Executors.newFixedThreadPool(BENCHES);
    try {
      Map<String, Future<Verdict>> coming = new LinkedHashMap<>();
      for (DemoBox box : DemoBox.values()) {
        coming.put(box.serial(), benches.submit(() -> emulated(box, settings)));
      }
      Map<String, Verdict> verdicts = new LinkedHashMap<>();
      for (Map.Entry<String, Future<Verdict>> each : coming.entrySet()) {
        verdicts.put(each.getKey(), each.getValue().get(LIMIT_SECONDS, TimeUnit.SECONDS));
      }
      return verdicts;
    } finally {
      benches.shutdownNow();
      assertTrue(benches.awaitTermination(LIMIT_SECONDS, TimeUnit.SECONDS), "a bench goes on");
    }
  }

  private static Map<String, Verdict> virtual() throws Exception {
    Screen screen = unread();
    ZonedDateTime when = ZonedDateTime.of(2024, 2, 29, 12, 0, 0, 0, ZoneOffset.UTC);
    try (StopRequest stop = StopRequest.listen()) {
      return new Demo(when, "test", new ProgressLine(screen), stop)
          .run().stream().collect(Collectors.toMap(Demo.Row::serial, row -> row.card().verdict()));
    }
  }

  private Verdict emulated(DemoBox box, SweepSettings settings) throws Exception {
    SweepResult result = sweep(box.world().load().with(jig), settings);
    return new Judging()
        .card(
            PlannedBoxFile.bundled(box.plan()),
            result.measurement(),
            Optional.of(box.serial()),
            List.of())
        .verdict();
  }

  private SweepResult sweep(World world, SweepSettings settings) {
    return onBoard(
        world,
        client -> {
          SweepOutcome outcome = new QuickSweep(settings).run(client, SweepListener.NONE);
          return assertInstanceOf(SweepResult.class, outcome, outcome::toString);
        });
  }

  private <T> T onBoard(World world, Clips.Measuring<T> measuring) {
    try (EmulatedBoard board =
            EmulatedBoard.start(
                Files.createTempDirectory(folder, "bench"), world, EmulatedBoard.Pace.BRISK);
        JigClient client = board.connect()) {
      return measuring.with(client);
    } catch (Exception failed) {
      throw new AssertionError("the emulated board was not swept", failed);
    }
  }

  /** Decision and first suspicion. */
  private static String said(DemoBox box, Verdict verdict) {
    return box.serial()
        + " "
        + verdict.decision()
        + " "
        + verdict.suspects().stream().findFirst().map(Verdict.Suspect::faults).orElse(List.of());
  }

  private Calibration calibrate() throws Exception {
    Screen screen = unread();
    try (StopRequest stop = StopRequest.listen()) {
      return new Calibrating(
              new BoardsClips(),
              RESISTOR_OHM,
              RESISTOR_TOLERANCE,
              ProgressLine.silent(screen),
              stop)
          .withoutListening()
          .run("DEMO-1");
    }
  }

  private static Screen unread() {
    PrintStream unread =
        new PrintStream(new ByteArrayOutputStream(), false, StandardCharsets.UTF_8);
    return new Screen(unread, unread, false, false, false);
  }

  /** Clips that the test itself opens, joins and puts on a resistor. */
  private final class BoardsClips implements Clips {
    @Override
    public <T> T then(String instruction, CalibrationStep step, Measuring<T> measuring) {
      double ohm =
          switch (step) {
            case OPEN -> 1e7;
            case SHORT -> 0.0005;
            case RESISTOR -> RESISTOR_OHM;
          };
      World loaded = DemoWorld.HERON.load().with(jig).with(Box.load(new Wiring.Resistance(ohm)));
      return onBoard(loaded, measuring);
    }

    @Override
    public void refused(String sentence) {
      throw new AssertionError(sentence);
    }
  }
}
