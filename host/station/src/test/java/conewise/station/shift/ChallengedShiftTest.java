package conewise.station.shift;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Decision;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import conewise.simulator.world.DemoWorld;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.BoxRun;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A shift that begins with a challenge, in whose middle the computer sleeps a night. */
class ChallengedShiftTest {
  private static final long PATIENCE_SECONDS = 120;

  @TempDir Path folder;

  private final BenchClock clock = new BenchClock();
  private final TroubledJig jig =
      new TroubledJig(DemoWorld.WREN.load(), SweepSettings.standard().withScaleUncertainty(0.002));
  private BenchWatch watch;

  private BenchState measured(DemoWorld world, LinkFaults line, String serial) throws Exception {
    Bench bench = watch.bench();
    jig.put(world.load().with(DemoWorld.WREN.load().jig()), line);
    bench.meetJigAgain();
    watch.after(
        () -> bench.scan(serial),
        state -> state.phase() == Phase.CLIPS && state.box().orElseThrow().serial().equals(serial));
    return watch.after(bench::start, state -> state.phase() == Phase.VERDICT);
  }

  private static Decision decision(BenchState state) {
    return state.box().orElseThrow().card().orElseThrow().verdict().decision();
  }

  private static String headline(BenchState state) {
    return state.box().orElseThrow().card().orElseThrow().verdict().headline();
  }

  @Test
  void noBoxPassesBeforeTheChallengeIsMetNorOnTheMorningAfterANightsSleep() throws Exception {
    Challenge challenge =
        new Challenge(
            new Artefact("GOLDEN-1", Path.of("wren"), true, Optional.empty()),
            new Artefact("RED-1", Path.of("wren"), false, Optional.of("wired backwards")));
    try (RecordStore store =
            RecordStore.open(new RecordPlace.OfFile(folder.resolve("records.db")));
        Bench bench =
            new Bench(
                JobShelf.bundled(),
                jig,
                new RecordKeeper(store),
                new Bench.Setting(false, Rates.USUAL, "bench", "of the test"),
                clock,
                Optional.of(new ShiftChallenge(challenge, ShiftChallenge.USUAL)))) {
      watch = new BenchWatch(bench, PATIENCE_SECONDS);
      assertTrue(bench.state().remark().orElseThrow().contains("GOLDEN-1, which must pass"));
      watch.after(() -> bench.scan("wren"), state -> state.job().isPresent());
      BenchState early = measured(DemoWorld.WREN, LinkFaults.none(), "A-1");
      assertEquals(Decision.NOT_JUDGED, decision(early), headline(early));
      assertTrue(headline(early).contains("GOLDEN-1"), headline(early));

      BenchState golden = measured(DemoWorld.WREN, LinkFaults.none(), "GOLDEN-1");
      assertEquals(Decision.PASS, decision(golden), headline(golden));
      assertTrue(golden.remark().orElseThrow().contains("RED-1"), golden.remark()::toString);
      BenchState red = measured(DemoWorld.WREN_DRIVER_REVERSED, LinkFaults.none(), "RED-1");
      assertEquals(Decision.FAIL, decision(red), headline(red));
      assertTrue(red.remark().orElseThrow().contains("challenge is met"), red.remark()::toString);
      BenchState passed = measured(DemoWorld.WREN, LinkFaults.none(), "A-1");
      assertEquals(Decision.PASS, decision(passed), headline(passed));
      assertTrue(passed.remark().isEmpty(), passed.remark()::toString);

      jig.exchange("SHOP-2");
      bench.meetJigAgain();
      watch.until(state -> state.remark().map(text -> text.contains("SHOP-2")).orElse(false));
      BenchState other = measured(DemoWorld.WREN, LinkFaults.none(), "A-3");
      assertEquals(Decision.NOT_JUDGED, decision(other), headline(other));
      assertTrue(
          headline(other).contains("read by jig SHOP-1, and this is jig SHOP-2"), headline(other));
      jig.exchange("SHOP-1");
      bench.meetJigAgain();
      watch.until(state -> state.jig().words().contains("SHOP-1") && state.remark().isEmpty());
      BenchState first = measured(DemoWorld.WREN, LinkFaults.none(), "A-3");
      assertEquals(Decision.PASS, decision(first), headline(first));

      // The lid is shut in mid-sweep; in the morning the line is dead and says nothing.
      Runnable off =
          bench.watch(
              state -> {
                if (state.phase() == Phase.MEASURING
                    && state.box().orElseThrow().fraction() > 0.5
                    && clock.instant().isBefore(Instant.parse("2026-11-26T12:00:00Z"))) {
                  clock.passes(Duration.ofHours(13));
                }
              });
      LinkFaults dead = LinkFaults.none().at(Direction.TO_HOST, Fault.FREEZE, 80_000);
      BenchState slept = measured(DemoWorld.WREN, dead, "A-2");
      off.run();
      assertEquals(Decision.NOT_JUDGED, decision(slept), headline(slept));
      assertTrue(headline(slept).contains("slept for 13 h"), headline(slept));
      assertTrue(clock.instant().isAfter(Instant.parse("2026-11-26T19:00:00Z")));
      watch.until(state -> state.jig().answers());
      BenchState next = measured(DemoWorld.WREN, LinkFaults.none(), "A-2");
      assertEquals(Decision.NOT_JUDGED, decision(next), headline(next));
      assertTrue(headline(next).contains("GOLDEN-1"), headline(next));

      assertKeptAsWhatTheyAre(store);
    }
  }

  @Test
  void aWrongJobIsRefusedByTheDcResistanceBeforeASweep() throws Exception {
    try (RecordStore store =
            RecordStore.open(new RecordPlace.OfFile(folder.resolve("records.db")));
        Bench bench =
            new Bench(
                JobShelf.bundled(),
                jig,
                new RecordKeeper(store),
                new Bench.Setting(false, Rates.USUAL, "bench", "of the test"),
                clock)) {
      watch = new BenchWatch(bench, PATIENCE_SECONDS);
      watch.after(() -> bench.scan("dipper"), state -> state.job().isPresent());
      BenchState told = measured(DemoWorld.WREN, LinkFaults.none(), "A-1");
      assertEquals(Decision.NOT_JUDGED, decision(told), headline(told));
      assertTrue(headline(told).contains("this is not box Dipper"), headline(told));
      assertTrue(headline(told).contains("1.9 ohm"), headline(told));
      assertEquals(1, store.list(RunFilter.ALL).size());
    }
  }

  private static void assertKeptAsWhatTheyAre(RecordStore store) throws Exception {
    List<RunLine> all = store.list(RunFilter.ALL);
    assertEquals(
        List.of("RED-1", "GOLDEN-1"),
        all.stream()
            .filter(run -> run.job().equals(BoxRun.CHALLENGE_JOB))
            .map(RunLine::serial)
            .toList());
    assertEquals(8, all.size());
    // No box of the yield, of the faults, or of a trend.
    // alone were judged in the end.
    assertEquals(
        2,
        store.weeklyYield(RunFilter.ALL, ZoneOffset.UTC).stream()
            .mapToInt(week -> week.boxes())
            .sum());
    assertEquals(List.of(), store.suspected(RunFilter.ALL));
    assertTrue(
        store.figures("dc-resistance", RunFilter.ALL).stream()
            .map(each -> each.serial())
            .collect(Collectors.toSet())
            .stream()
            .noneMatch(serial -> serial.equals("GOLDEN-1") || serial.equals("RED-1")));
  }
}
