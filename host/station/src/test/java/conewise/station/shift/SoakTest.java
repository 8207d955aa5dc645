package conewise.station.shift;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Decision;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.VirtualClips;
import conewise.station.measuring.StopRequest;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.shift.BenchState.Done;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Many boxes through one station in simulated time, the line to the jig being pulled, garbled and
 * delayed: no wrong verdict, no lost record, nothing that grows. A few boxes by default; {@code
 * -Dconewise.soak.boxes=1000} for the whole of it, {@code -Dconewise.soak.seed} for another one.
 */
class SoakTest {
  private static final int BOXES = Integer.getInteger("conewise.soak.boxes", 8);
  private static final long SEED = Long.getLong("conewise.soak.seed", 1);

  /** What grows is looked at where enough boxes went by for it to show. */
  private static final int ENOUGH = 200;

  private static final int LOOKS = 20;
  private static final long PATIENCE_SECONDS = 240;
  private static final int TRIES = 6;
  private static final double RESISTOR_OHM = 10;
  private static final double MIB = 1 << 20;

  /** Heap that may be gained from the second quarter of a soak to its last, in MiB. */
  private static final double GAIN_MIB = 4;

  private final Random random = new Random(SEED);
  private final Map<String, Decision> shown = new HashMap<>();
  private final Map<Decision, Integer> decisions = new EnumMap<>(Decision.class);
  private final List<Look> looks = new ArrayList<>();
  private int struck;
  private int meetings;

  @TempDir Path folder;

  /** A box of a job, and what may not be said of it. */
  private record Kind(DemoWorld world, String job, Decision never) {}

  private static final List<Kind> KINDS =
      List.of(
          new Kind(DemoWorld.WREN, "wren", Decision.FAIL),
          new Kind(DemoWorld.WREN_DRIVER_REVERSED, "wren", Decision.PASS),
          new Kind(DemoWorld.DIPPER, "dipper", Decision.FAIL),
          new Kind(DemoWorld.HERON, "heron", Decision.FAIL),
          new Kind(DemoWorld.HERON_DRIVER_REVERSED, "heron", Decision.PASS));

  /** How often each kind comes, in 20. */
  private static final int[] SHARES = {8, 6, 4, 1, 1};

  /** What the process holds after a full collection. */
  private record Look(int box, double heapMib, int threads, long files) {}

  @Test
  void manyBoxesOverABadLineLeaveNoWrongVerdictNoLostRecordAndNothingThatGrows() throws Exception {
    System.out.println("soak of " + BOXES + " boxes, seed " + SEED);
    JigImperfections jig = DemoWorld.HERON.load().jig();
    TroubledJig source = new TroubledJig(box(KINDS.get(0), jig), calibrated(jig));
    long begun = System.nanoTime();
    try (RecordStore store =
            RecordStore.open(new RecordPlace.OfFile(folder.resolve("records.db")));
        Bench bench =
            new Bench(
                JobShelf.bundled(),
                source,
                new RecordKeeper(store),
                new Bench.Setting(false, Rates.USUAL, "soak", "of the test"),
                new BenchClock())) {
      BenchWatch watch = new BenchWatch(bench, PATIENCE_SECONDS);
      for (int number = 1; number <= BOXES; number++) {
        through(watch, source, jig, number);
        if (BOXES >= ENOUGH && number % Math.max(1, BOXES / LOOKS) == 0) {
          looks.add(look(number));
          System.out.println(looks.get(looks.size() - 1) + " " + decisions);
        }
      }
      assertKept(store);
    }
    System.out.printf(
        Locale.ROOT,
        "%d verdicts %s, %d meetings of the jig, %d of them on a line with faults, %.0f s%n",
        shown.size(),
        decisions,
        meetings,
        struck,
        (System.nanoTime() - begun) * 1e-9);
    assertTrue(struck > 0 || BOXES < 4, "no line had a fault");
    assertNothingGrew();
  }

  private World box(Kind kind, JigImperfections jig) {
    return kind.world().load().with(jig).withSeed(random.nextLong());
  }

  private static SweepSettings calibrated(JigImperfections jig) throws Exception {
    PrintStream nowhere =
        new PrintStream(PrintStream.nullOutputStream(), false, StandardCharsets.UTF_8);
    ProgressLine silent = ProgressLine.silent(new Screen(nowhere, nowhere, true, false, false));
    World world = DemoWorld.HERON.load().with(jig);
    try (StopRequest stop = StopRequest.listen()) {
      Calibration calibration =
          new Calibrating(
                  new VirtualClips(world, RESISTOR_OHM, silent), RESISTOR_OHM, 0.001, silent, stop)
              .withoutListening()
              .run("SOAK");
      return SweepSettings.standard().with(calibration);
    }
  }

  private Kind drawn() {
    int place = random.nextInt(20);
    int kind = 0;
    while (place >= SHARES[kind]) {
      place -= SHARES[kind++];
    }
    return KINDS.get(kind);
  }

  /** One box, measured again until the bench let it be judged. */
  private void through(BenchWatch watch, TroubledJig source, JigImperfections jig, int number)
      throws Exception {
    Kind kind = drawn();
    String serial = String.format(Locale.ROOT, "S-%05d", number);
    Bench bench = watch.bench();
    if (!bench.state().job().map(job -> job.code().equals(kind.job())).orElse(false)) {
      watch.after(
          () -> bench.scan(kind.job()),
          state -> state.job().map(job -> job.code().equals(kind.job())).orElse(false));
    }
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      boolean last = attempt == TRIES;
      source.put(box(kind, jig), last ? LinkFaults.none() : line());
      meetings++;
      bench.meetJigAgain();
      watch.after(
          () -> bench.scan(serial), state -> state.phase() == Phase.CLIPS && isOf(state, serial));
      BenchState told =
          watch.after(
              bench::start,
              state ->
                  state.phase() == Phase.VERDICT
                      || (state.phase() == Phase.CLIPS && state.remark().isPresent()));
      if (told.phase() == Phase.VERDICT && note(told, kind, serial) != Decision.NOT_JUDGED) {
        return;
      }
    }
    throw new AssertionError("a sound line gave no verdict: " + bench.state());
  }

  private Decision note(BenchState told, Kind kind, String serial) {
    var card = told.box().orElseThrow().card().orElseThrow();
    Decision decision = card.verdict().decision();
    assertEquals(serial, card.serial().orElseThrow(), "seed " + SEED);
    assertNotEquals(
        kind.never(),
        decision,
        () -> serial + ", " + kind + ", seed " + SEED + ": " + card.verdict().headline());
    String key = kind.job() + " " + serial + " " + card.attempt().orElseThrow();
    assertEquals(null, shown.put(key, decision), () -> key + " was shown twice");
    decisions.merge(decision, 1, Integer::sum);
    Done done = told.today().get(0);
    assertEquals(serial, done.serial());
    assertEquals(decision, done.decision());
    return decision;
  }

  private static boolean isOf(BenchState state, String serial) {
    return state.box().map(box -> box.serial().equals(serial)).orElse(false);
  }

  /** Half of all lines are sound; the others garble, delay, or break at some byte. */
  private LinkFaults line() {
    if (random.nextBoolean()) {
      return LinkFaults.none();
    }
    struck++;
    LinkFaults faults = LinkFaults.none().seeded(random.nextLong());
    Direction way = random.nextBoolean() ? Direction.TO_HOST : Direction.TO_JIG;
    return switch (random.nextInt(8)) {
      case 0 -> faults.at(way, Fault.UNPLUG, byteOf(way));
      case 1 -> faults.at(way, Fault.FREEZE, byteOf(way));
      case 2 -> faults.at(way, Fault.REBOOT, byteOf(way));
      case 3 -> faults.often(Direction.TO_HOST, Fault.DROP, 2e-5);
      case 4 -> faults.often(Direction.TO_HOST, Fault.FLIP, 2e-5);
      case 5 -> faults.often(Direction.TO_HOST, Fault.DELAY, 1e-4);
      case 6 -> faults.often(way, Fault.DUPLICATE, 2e-5);
      default ->
          faults
              .often(Direction.TO_JIG, Fault.FLIP, 1e-4)
              .often(Direction.TO_HOST, Fault.SPLIT, 1e-3);
    };
  }

  /** Somewhere in a quick sweep, which hears some 90 kB and sends some 10 kB. */
  private long byteOf(Direction way) {
    return random.nextInt(way == Direction.TO_HOST ? 100_000 : 10_000);
  }

  private void assertKept(RecordStore store) throws Exception {
    Map<String, Decision> kept = new HashMap<>();
    for (RunLine run : store.list(RunFilter.ALL)) {
      kept.put(run.job() + " " + run.serial() + " " + run.attempt(), run.decision());
    }
    assertEquals(shown, kept, "seed " + SEED);
  }

  private static Look look(int box) throws Exception {
    for (int i = 0; i < 3; i++) {
      System.gc();
    }
    double heap = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed() / MIB;
    Path open = Path.of("/proc/self/fd");
    long files = 0;
    if (Files.isDirectory(open)) {
      try (Stream<Path> all = Files.list(open)) {
        files = all.count();
      }
    }
    return new Look(box, heap, ManagementFactory.getThreadMXBean().getThreadCount(), files);
  }

  private void assertNothingGrew() {
    if (looks.size() < LOOKS / 2) {
      return;
    }
    int quarter = looks.size() / 4;
    List<Look> early = looks.subList(quarter, 2 * quarter);
    List<Look> late = looks.subList(looks.size() - quarter, looks.size());
    double gain =
        late.stream().mapToDouble(Look::heapMib).average().orElseThrow()
            - early.stream().mapToDouble(Look::heapMib).average().orElseThrow();
    assertTrue(gain < GAIN_MIB, () -> "the heap grew by " + gain + " MiB: " + looks);
    assertTrue(most(late, true) <= most(early, true) + 1, () -> "threads grew: " + looks);
    assertTrue(most(late, false) <= most(early, false) + 1, () -> "open files grew: " + looks);
  }

  private static long most(List<Look> some, boolean threads) {
    return some.stream()
        .mapToLong(each -> threads ? each.threads() : each.files())
        .max()
        .orElseThrow();
  }
}
