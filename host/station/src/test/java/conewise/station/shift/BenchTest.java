package conewise.station.shift;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.diagnosis.State;
import conewise.analysis.judgement.Decision;
import conewise.simulator.world.DemoWorld;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.BooleanSupplier;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench through a shift, on a virtual jig in simulated time. */
class BenchTest {
  private static final long PATIENCE_SECONDS = 60;

  private final PluggedJig jig = new PluggedJig();
  private final List<BoxRun> kept = new CopyOnWriteArrayList<>();
  private final List<Keeper.Further> further = new CopyOnWriteArrayList<>();
  private final Map<Long, List<Overruling>> overruled = new ConcurrentHashMap<>();
  private final List<BenchState> seen = new ArrayList<>();
  private final BenchClock clock = new BenchClock();
  private volatile boolean diskFull;
  private volatile boolean faulty;
  private Bench bench;

  @BeforeEach
  void begin() throws Exception {
    bench =
        new Bench(
            JobShelf.bundled(),
            jig,
            new Memory(),
            new Bench.Setting(false, Rates.USUAL, "bench", "of the test"),
            clock);
    bench.watch(
        state -> {
          synchronized (seen) {
            seen.add(state);
          }
        });
  }

  @AfterEach
  void end() {
    bench.close();
  }

  /** Keeps in memory, counting attempts; refuses when its disk is full. */
  private final class Memory implements Keeper {
    @Override
    public Kept keep(BoxRun run) throws KeepingException {
      if (diskFull) {
        throw new KeepingException("no space is left", null);
      }
      kept.add(run);
      long attempt = kept.stream().filter(each -> each.serial().equals(run.serial())).count();
      return new Kept(kept.size(), (int) attempt);
    }

    @Override
    public List<Overruling> overrulings(Kept run) throws KeepingException {
      if (diskFull) {
        throw new KeepingException("no space is left", null);
      }
      return overruled.getOrDefault(run.run(), List.of());
    }

    @Override
    public void further(Further more) {
      if (faulty) {
        throw new java.util.NoSuchElementException("a fault of the test's");
      }
      further.add(more);
    }
  }

  private BenchState until(Predicate<BenchState> wanted) throws InterruptedException {
    CountDownLatch there = new CountDownLatch(1);
    BenchState[] found = new BenchState[1];
    Runnable off =
        bench.watch(
            state -> {
              if (found[0] == null && wanted.test(state)) {
                found[0] = state;
                there.countDown();
              }
            });
    BenchState now = bench.state();
    if (wanted.test(now)) {
      off.run();
      return now;
    }
    assertTrue(there.await(PATIENCE_SECONDS, TimeUnit.SECONDS), () -> "stands at " + bench.state());
    off.run();
    return found[0];
  }

  private BenchState judged(String serial) throws InterruptedException {
    bench.scan(serial);
    until(state -> state.phase() == Phase.CLIPS && isOf(state, serial));
    bench.scan("");
    return until(state -> state.phase() == Phase.VERDICT && isOf(state, serial));
  }

  private static boolean isOf(BenchState state, String serial) {
    return state.box().map(box -> box.serial().equals(serial)).orElse(false);
  }

  private static Decision decision(BenchState state) {
    return state.box().orElseThrow().card().orElseThrow().verdict().decision();
  }

  @Test
  void aBoxIsKeptBeforeItsVerdictIsShownAndRetestsAreCounted() throws Exception {
    jig.put(DemoWorld.HERON_DRIVER_REVERSED);
    bench.meetJigAgain();
    bench.scan("heron");
    BenchState first = judged("A-1");
    assertEquals(Decision.FAIL, decision(first));
    assertEquals(1, kept.size());
    jig.put(DemoWorld.HERON);
    bench.meetJigAgain();
    BenchState second = judged("A-1");
    assertEquals(2, second.box().orElseThrow().card().orElseThrow().attempt().orElseThrow());
    assertEquals(2, second.today().size());
  }

  @Test
  void aVerdictNeverStandsBesideAnotherNumberWhateverIsAskedAndWhen() throws Exception {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    bench.scan("wren");
    for (int step = 0; step < 30; step++) {
      switch (random.nextInt(6)) {
        case 0 -> bench.scan("");
        case 1 -> bench.start();
        case 2 -> bench.stop();
        case 3 -> bench.scan("heron");
        case 4 -> bench.pop("left", Motion.OUT);
        default -> bench.scan("B-" + random.nextInt(4));
      }
      if (random.nextInt(10) == 0) {
        judged("B-9");
      }
    }
    judged("C-1");
    synchronized (seen) {
      for (BenchState state : seen) {
        state
            .box()
            .ifPresent(
                box ->
                    box.card()
                        .ifPresent(
                            card ->
                                assertEquals(
                                    Optional.of(box.serial()), card.serial(), "seed " + seed)));
        assertEquals(
            state.phase() == Phase.VERDICT,
            state.box().map(box -> box.card().isPresent()).orElse(false),
            "seed " + seed);
      }
    }
  }

  @Test
  void aJigPulledInMidSweepLeavesTheBoxNotJudgedAndIsMetAgainByItself() throws Exception {
    bench.scan("heron");
    Runnable off =
        bench.watch(
            state -> {
              if (state.phase() == Phase.MEASURING && state.box().orElseThrow().fraction() > 0.4) {
                jig.pull();
              }
            });
    BenchState pulled = judged("A-1");
    off.run();
    assertEquals(Decision.NOT_JUDGED, decision(pulled));
    BenchState away = until(state -> !state.jig().answers());
    assertFalse(away.jig().words().isBlank());
    jig.plug();
    until(state -> state.jig().answers());
    BenchState again = judged("A-1");
    assertTrue(decision(again) != Decision.NOT_JUDGED, again::toString);
    assertEquals(2, again.box().orElseThrow().card().orElseThrow().attempt().orElseThrow());
  }

  @Test
  void withoutAJigNothingIsMeasuredAndItIsSaid() throws Exception {
    jig.pull();
    bench.meetJigAgain();
    until(state -> !state.jig().answers());
    bench.scan("heron");
    bench.scan("A-1");
    bench.scan("");
    BenchState told = until(state -> state.remark().isPresent());
    assertTrue(told.remark().orElseThrow().contains("does not answer"), told::toString);
    assertTrue(kept.isEmpty());
  }

  @Test
  void whatCannotBeKeptIsNotShown() throws Exception {
    bench.scan("heron");
    diskFull = true;
    bench.scan("A-1");
    until(state -> state.phase() == Phase.CLIPS);
    bench.scan("");
    BenchState refused = until(state -> state.phase() == Phase.NOT_KEPT);
    assertTrue(refused.box().orElseThrow().card().isEmpty());
    assertTrue(refused.remark().orElseThrow().contains("no space is left"));
    assertTrue(refused.today().isEmpty());
    diskFull = false;
    bench.scan("");
    until(state -> state.phase() == Phase.VERDICT);
  }

  @Test
  void theFootSwitchMeasuresTheBoxOnTheClips() throws Exception {
    bench.scan("heron");
    bench.scan("A-1");
    until(state -> state.phase() == Phase.CLIPS && state.jig().answers());
    jig.foot(true);
    until(state -> state.phase() == Phase.VERDICT);
    jig.foot(false);
  }

  @Test
  void aPopTestAndASecondSweepAreWeighedWithTheFirst() throws Exception {
    jig.put(DemoWorld.HERON_DRIVER_REVERSED);
    bench.meetJigAgain();
    bench.scan("heron");
    judged("A-1");
    bench.pop("left", Motion.OUT);
    until(state -> state.phase() == Phase.VERDICT && pops(state) == 1);
    bench.pop("right", Motion.IN);
    BenchState told = until(state -> state.phase() == Phase.VERDICT && pops(state) == 2);
    assertEquals(
        "Wrong: driver right is wired backwards.",
        told.box().orElseThrow().card().orElseThrow().verdict().headline());
    assertEquals(1, told.box().orElseThrow().card().orElseThrow().attempt().orElseThrow());
    bench.again(new State.VentClosed("port"));
    BenchState swept =
        until(
            state ->
                state.phase() == Phase.VERDICT && !state.box().orElseThrow().again().isEmpty());
    assertEquals(2, pops(swept));
    assertEquals(1, swept.today().size());
    assertEquals(1, kept.size());
    assertEquals(3, further.size());
    assertEquals(List.of(1L, 1L, 1L), further.stream().map(each -> each.kept().run()).toList());
  }

  private static int pops(BenchState state) {
    return state.box().map(box -> box.pops().size()).orElse(0);
  }

  @Test
  void aFaultOfTheProgramLeavesNoVerdictAndTheShiftGoesOn() throws Exception {
    bench.scan("heron");
    judged("A-1");
    faulty = true;
    bench.pop("left", Motion.OUT);
    BenchState told = until(state -> state.remark().isPresent());
    assertEquals(Phase.CLIPS, told.phase());
    assertTrue(told.box().orElseThrow().card().isEmpty());
    faulty = false;
    judged("A-2");
  }

  @Test
  void aSecondSweepThatIsSpoiledLeavesTheFirstVerdict() throws Exception {
    bench.scan("heron");
    BenchState first = judged("A-1");
    jig.putOpenClips();
    bench.meetJigAgain();
    bench.again(new State.VentClosed("port"));
    BenchState told = until(state -> state.remark().isPresent());
    assertTrue(told.remark().orElseThrow().contains("tells nothing"), told::toString);
    assertEquals(decision(first), decision(told));
    assertTrue(further.isEmpty());
    assertTrue(told.box().orElseThrow().again().isEmpty());
  }

  @Test
  void anOverrulingStandsBesideTheVerdictOfItsRunAndOfNoOther() throws Exception {
    bench.scan("heron");
    BenchState first = judged("A-1");
    Overruling grace = new Overruling(clock.instant(), "Grace", Decision.FAIL, "It hums.");
    overruled.put(1L, List.of(grace));
    BenchState told = until(state -> !state.box().orElseThrow().overruled().isEmpty());
    assertEquals(List.of(grace), told.box().orElseThrow().overruled());
    assertTrue(told.today().get(0).overruled(), "the strip says so too");
    assertEquals(decision(first), decision(told));
    bench.pop("left", Motion.OUT);
    BenchState further = until(state -> state.phase() == Phase.VERDICT && pops(state) == 1);
    assertEquals(List.of(grace), further.box().orElseThrow().overruled());
    BenchState second = judged("A-2");
    assertEquals(List.of(), second.box().orElseThrow().overruled());
    assertFalse(second.today().get(0).overruled(), "another box is not");
    assertTrue(second.today().get(1).overruled(), "the first box stays so in the strip");
  }

  @Test
  void whereItCannotBeReadWhetherAVerdictIsOverruledThatIsSaid() throws Exception {
    bench.scan("heron");
    bench.scan("A-1");
    until(state -> state.phase() == Phase.CLIPS);
    bench.watch(state -> diskFull = diskFull || state.phase() == Phase.VERDICT);
    bench.start();
    BenchState told = until(state -> state.phase() == Phase.VERDICT && state.remark().isPresent());
    assertTrue(told.remark().orElseThrow().contains("cannot be read: no space"), told::toString);
  }

  @Test
  void afterASleepTheOldVerdictIsOffTheCardAndTheJigIsMetAfresh() throws Exception {
    bench.scan("heron");
    judged("A-1");
    int met = jig.meetings();
    clock.passes(Duration.ofHours(13));
    BenchState woken = until(state -> state.slept().isPresent());
    assertEquals("13 h", woken.slept().orElseThrow().words());
    assertEquals(Phase.CLIPS, woken.phase());
    assertTrue(isOf(woken, "A-1") && woken.box().orElseThrow().card().isEmpty(), woken::toString);
    bench.pop("left", Motion.OUT);
    bench.again(new State.VentClosed("port"));
    bench.start();
    BenchState again = until(state -> state.phase() == Phase.VERDICT);
    assertTrue(again.slept().isEmpty(), again::toString);
    assertEquals(2, again.box().orElseThrow().card().orElseThrow().attempt().orElseThrow());
    assertEquals(met + 1, jig.meetings());
    assertEquals(List.of(), further);
  }

  @Test
  void aSweepThroughWhichTheComputerSleptIsNotJudgedThoughItCameWhole() throws Exception {
    bench.scan("heron");
    BooleanSupplier slept = sleepOnceAt(0.9);
    BenchState told = judged("A-1");
    assertTrue(slept.getAsBoolean());
    assertEquals(Decision.NOT_JUDGED, decision(told));
    assertEquals(
        "Not judged: the computer slept for 2 h, or its clock was set on by as much, while this box"
            + " was measured.",
        told.box().orElseThrow().card().orElseThrow().verdict().headline());
    assertEquals("2 h", told.slept().orElseThrow().words());
    assertEquals(List.of(Decision.NOT_JUDGED), decisionsKept());
    until(state -> state.jig().answers());
    bench.start();
    until(state -> state.phase() == Phase.VERDICT && state.slept().isEmpty());
    assertEquals(2, kept.size());
    assertTrue(decisionsKept().get(1) != Decision.NOT_JUDGED);
  }

  @Test
  void whatWasAskedForBeforeASleepIsNotDoneAfterIt() throws Exception {
    bench.scan("heron");
    onceAt(0.3, bench::start);
    BooleanSupplier slept = sleepOnceAt(0.6);
    judged("A-1");
    assertTrue(slept.getAsBoolean());
    // The order that is given now comes after all that stood in the queue.
    bench.operator("Ada");
    BenchState now = until(state -> state.operator().isPresent());
    assertEquals(Decision.NOT_JUDGED, decision(now));
    assertEquals(1, kept.size());
  }

  @Test
  void aSecondSweepThroughWhichTheComputerSleptLeavesNoVerdictOnTheCard() throws Exception {
    bench.scan("heron");
    judged("A-1");
    sleepOnceAt(0.9);
    bench.again(new State.VentClosed("port"));
    BenchState woken = until(state -> state.slept().isPresent());
    assertEquals(Phase.CLIPS, woken.phase());
    assertTrue(woken.box().orElseThrow().card().isEmpty());
    assertEquals(List.of(), further);
  }

  /** The computer sleeps two hours when a sweep has come so far; answers whether it has. */
  private BooleanSupplier sleepOnceAt(double fraction) {
    return onceAt(fraction, () -> clock.passes(Duration.ofHours(2)));
  }

  /** Something happens when a sweep has come so far, once; answers whether it has. */
  private BooleanSupplier onceAt(double fraction, Runnable what) {
    AtomicBoolean done = new AtomicBoolean();
    bench.watch(
        state -> {
          if (state.phase() == Phase.MEASURING
              && state.box().orElseThrow().fraction() >= fraction
              && done.compareAndSet(false, true)) {
            what.run();
          }
        });
    return done::get;
  }

  private List<Decision> decisionsKept() {
    return kept.stream().map(run -> run.verdict().decision()).toList();
  }

  @Test
  void aNumberBeforeAnyJobIsRefusedInASentence() throws Exception {
    bench.scan("A-1");
    BenchState told = until(state -> state.remark().isPresent());
    assertTrue(told.remark().orElseThrow().contains("is no job"), told::toString);
    assertEquals(Phase.JOB, told.phase());
  }
}
