package conewise.station.records.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.judgement.Decision;
import conewise.analysis.sampling.Capture;
import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import conewise.station.records.Appended;
import conewise.station.records.BoxRun;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.SampleRuns;
import conewise.station.records.Sighting;
import conewise.station.records.trend.BoxAttempt;
import conewise.station.records.trend.WeeklyYield;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What records must do, whatever keeps them. */
abstract class RecordStoreContract {
  private static final List<String> TABLES =
      List.of(
          "plan",
          "job",
          "limits",
          "run",
          "run_detail",
          "capture",
          "second_sweep",
          "estimate",
          "judgement",
          "check_result",
          "sighting",
          "overruling");

  private RecordPlace place;
  private RecordStore store;

  /** Where records are laid out and nothing is in them yet. */
  abstract RecordPlace emptyPlace() throws Exception;

  /** A connection past the store, as a person with a database program has it. */
  abstract Connection pastTheStore(RecordPlace place) throws SQLException;

  @BeforeEach
  void open() throws Exception {
    place = emptyPlace();
    store = RecordStore.open(place);
  }

  @AfterEach
  void close() {
    store.close();
  }

  @Test
  void aRunComesBackWholeAfterTheStoreWasClosed() throws Exception {
    BoxRun failed =
        SampleRuns.withSecondSweep(SampleRuns.failed("job 7", "A-1", SampleRuns.MORNING));
    BoxRun broken = SampleRuns.notJudged("job 7", "A-2", SampleRuns.MORNING);
    long first = store.append(failed).id();
    long second = store.append(broken).id();
    store.close();
    store = RecordStore.openExisting(place);
    assertSame(failed, store.run(first).orElseThrow().run());
    assertSame(broken, store.run(second).orElseThrow().run());
    assertEquals(Optional.empty(), store.run(second + 1));
    assertEquals(List.of(), store.runWithoutCaptures(first).orElseThrow().run().captures());
  }

  /** Captures have arrays, which a record does not compare by what is in them. */
  private static void assertSame(BoxRun expected, BoxRun found) {
    assertEquals(expected.captures().size(), found.captures().size());
    for (int i = 0; i < expected.captures().size(); i++) {
      Capture one = expected.captures().get(i);
      Capture other = found.captures().get(i);
      assertArrayEquals(one.voltageVolt().values(), other.voltageVolt().values());
      assertArrayEquals(one.currentAmpere().values(), other.currentAmpere().values());
      assertEquals(one.voltageVolt().lowRail(), other.voltageVolt().lowRail());
      assertEquals(one.voltageVolt().highRail(), other.voltageVolt().highRail());
      assertEquals(
          one.currentAmpere().firstInstantSeconds(), other.currentAmpere().firstInstantSeconds());
      assertEquals(one.currentAmpere().intervalSeconds(), other.currentAmpere().intervalSeconds());
    }
    assertEquals(SampleRuns.withoutCaptures(expected), SampleRuns.withoutCaptures(found));
  }

  @Test
  void attemptsAreCountedForEachSerialWithinItsJob() throws Exception {
    Instant at = SampleRuns.MORNING;
    assertEquals(1, store.append(SampleRuns.failed("one", "7", at)).attempt());
    assertEquals(2, store.append(SampleRuns.notJudged("one", "7", at)).attempt());
    assertEquals(1, store.append(SampleRuns.passed("two", "7", at)).attempt());
    assertEquals(1, store.append(SampleRuns.passed("one", "8", at)).attempt());
    assertEquals(3, store.append(SampleRuns.passed("one", "7", at)).attempt());
    assertEquals(3, store.attempts("one", "7"));
    assertEquals(0, store.attempts("one", "9"));
    assertEquals(List.of("one", "two"), store.jobs());
  }

  @Test
  void aRunHandedInAgainAfterALostAnswerIsKeptOnce() throws Exception {
    BoxRun run = SampleRuns.passed("one", "7", SampleRuns.MORNING);
    Appended first = store.append(run);
    assertEquals(first, store.append(run));
    assertEquals(1, store.list(RunFilter.ALL).size());
  }

  @Test
  void aPlanThatTheJobHasNotMetIsTheNextVersionOfItsLimits() throws Exception {
    PlanText wider = new PlanText("yaml", "plan: 2\nname: Heron, wider\n");
    List<Integer> versions = new ArrayList<>();
    for (PlanText plan : List.of(SampleRuns.PLAN, wider, SampleRuns.PLAN)) {
      BoxRun run = SampleRuns.run(SampleCards.passed(), "one", "7", plan, SampleRuns.MORNING);
      versions.add(store.append(run).limitsVersion());
    }
    assertEquals(List.of(1, 2, 1), versions);
    BoxRun other = SampleRuns.run(SampleCards.passed(), "two", "7", wider, SampleRuns.MORNING);
    assertEquals(1, store.append(other).limitsVersion());
  }

  @Test
  void aLaterJudgementStandsBesideTheFirstWhichStaysAsItWas() throws Exception {
    BoxRun run = SampleRuns.passed("one", "7", SampleRuns.MORNING);
    long id = store.append(run).id();
    PlanText narrower = new PlanText("json", "{\"plan\": 2}");
    Instant later = SampleRuns.MORNING.plusSeconds(3600);
    assertEquals(
        2, store.addJudgement(id, narrower, later, "0.2.0", SampleCards.failed().verdict()));
    KeptRun kept = store.run(id).orElseThrow();
    assertSame(run, kept.run());
    assertEquals(1, kept.limitsVersion());
    assertEquals(run.verdict(), kept.judgements().get(0).verdict());
    assertEquals(SampleCards.failed().verdict(), kept.judgements().get(1).verdict());
    assertEquals(2, kept.judgements().get(1).limitsVersion());
    assertEquals(narrower, kept.judgements().get(1).plan());
    assertEquals(Decision.PASS, store.list(RunFilter.ALL).get(0).decision());
    assertThrows(
        RecordsException.class,
        () -> store.addJudgement(id + 9, narrower, later, "0.2.0", run.verdict()));
  }

  @Test
  void aFurtherTestAndWhatIsSaidWithItAreKeptTogetherOrNotAtAll() throws Exception {
    Instant at = SampleRuns.MORNING;
    BoxRun run = SampleRuns.failed("one", "7", at);
    long id = store.append(run).id();
    SweptState sweep = new SweptState(new State.VentClosed("port"), SampleCards.vented());
    Sighting heard =
        Sighting.of(
            at,
            Optional.empty(),
            new Observation.HeardPops(Map.of("left", Motion.IN, "right", Motion.OUT), true));
    SweptState broken = new SweptState(new State.VentClosed("port"), null);
    assertThrows(RuntimeException.class, () -> further(id, run, broken, heard));
    assertEquals(1, store.run(id).orElseThrow().judgements().size());
    assertEquals(run.sightings(), store.run(id).orElseThrow().run().sightings());

    assertEquals(2, further(id, run, sweep, heard));
    KeptRun kept = store.run(id).orElseThrow();
    assertEquals(2, kept.judgements().size());
    assertEquals(List.of(sweep), kept.run().secondSweeps());
    assertEquals(heard, kept.run().sightings().get(run.sightings().size()));
    assertEquals(
        Optional.of(
            new Observation.HeardPops(Map.of("left", Motion.IN, "right", Motion.OUT), true)),
        heard.observation(null));
  }

  private int further(long id, BoxRun run, SweptState sweep, Sighting seen)
      throws RecordsException {
    return store.addFurther(
        id,
        Optional.of(sweep),
        Optional.of(seen),
        run.plan(),
        SampleRuns.MORNING,
        "0.2.0",
        run.verdict());
  }

  @Test
  void whatPeopleDecideOrSeeLaterIsKeptWithTheirNames() throws Exception {
    Instant at = SampleRuns.MORNING;
    long id = store.append(SampleRuns.failed("one", "7", at)).id();
    Overruling overruling = new Overruling(at, "Grace", Decision.PASS, "The customer takes it.");
    store.overrule(store.run(id).orElseThrow(), overruling);
    Sighting remark = Sighting.remark(at, Optional.of("Ada"), "A dent at the corner.");
    store.addSighting(id, remark);
    KeptRun kept = store.run(id).orElseThrow();
    assertEquals(List.of(overruling), kept.overrulings());
    assertEquals(remark, kept.run().sightings().get(1));
    RunLine line = store.list(RunFilter.ALL).get(0);
    assertEquals(Optional.of(overruling), line.overruled());
    assertEquals(Decision.FAIL, line.decision());
    RecordsException late =
        assertThrows(
            RecordsException.class,
            () ->
                store.overrule(
                    new KeptRun(id, 1, 1, kept.run(), kept.judgements(), List.of()), overruling));
    assertTrue(late.getMessage().contains("since you looked at it"), late.getMessage());
    assertEquals(Decision.PASS, kept.standing());
    IllegalArgumentException otherBox =
        assertThrows(
            IllegalArgumentException.class,
            () -> Overruling.of(kept, "8", at, "Grace", Decision.FAIL, "It hums."));
    assertTrue(otherBox.getMessage().contains("is of box 7 and not of 8"), otherBox.getMessage());
    assertThrows(
        IllegalArgumentException.class,
        () -> Overruling.of(kept, "7", at, "Grace", Decision.PASS, "It is so already."));
    KeptRun none = new KeptRun(id + 1, 1, 1, kept.run(), kept.judgements(), List.of());
    assertThrows(RecordsException.class, () -> store.overrule(none, overruling));
    assertThrows(RecordsException.class, () -> store.addSighting(id + 1, remark));
  }

  @Test
  void theListIsNewestFirstAndNarrowedByEachFilter() throws Exception {
    Instant at = SampleRuns.MORNING;
    store.append(SampleRuns.passed("one", "7", at));
    store.append(SampleRuns.failed("one", "8", at.plusSeconds(60)));
    store.append(SampleRuns.failed("two", "7", at.plusSeconds(120)));
    store.append(SampleRuns.notJudged("two", "9", at.plusSeconds(180)));
    Optional<String> none = Optional.empty();
    Optional<Instant> ever = Optional.empty();
    assertEquals("9 7 8 7", serials(RunFilter.ALL));
    assertEquals("9 7", serials(RunFilter.ALL.atMost(2)));
    Optional<Instant> minute = Optional.of(at.plusSeconds(60));
    assertEquals(
        "9 7 8",
        serials(new RunFilter(minute, ever, none, none, Optional.empty(), RunFilter.MOST)));
    assertEquals(
        "7", serials(new RunFilter(ever, minute, none, none, Optional.empty(), RunFilter.MOST)));
    assertEquals(
        "7",
        serials(
            new RunFilter(
                ever, ever, Optional.of("two"), none, Optional.of(Decision.FAIL), RunFilter.MOST)));
    assertEquals("7", serials(RunFilter.ofBox("one", "7")));
    assertEquals("", serials(RunFilter.ofBox("three", "7")));
    RunLine failed = store.list(RunFilter.ofBox("one", "8")).get(0);
    assertEquals(Optional.of("one driver reversed or drivers out of the box"), failed.fault());
  }

  @Test
  void theListGoesOnBehindAnyRunAndMissesNoneOfThoseThatEndedAtTheSameMoment() throws Exception {
    Instant at = SampleRuns.MORNING;
    for (String serial : List.of("1", "2", "3", "4", "5")) {
      store.append(light("one", serial, SampleCards.passed(), at));
    }
    List<String> seen = new ArrayList<>();
    List<RunLine> page = store.list(RunFilter.ALL.atMost(2));
    while (!page.isEmpty()) {
      page.forEach(line -> seen.add(line.serial()));
      page = store.listBefore(page.get(page.size() - 1).place(), RunFilter.ALL.atMost(2));
    }
    assertEquals(List.of("5", "4", "3", "2", "1"), seen);
    RunLine last = store.list(RunFilter.ofBox("one", "3")).get(0);
    assertEquals(List.of(), store.listBefore(last.place(), RunFilter.ofBox("one", "3")));
  }

  private static BoxRun light(String job, String serial, JobCard card, Instant at) {
    return SampleRuns.withoutCaptures(SampleRuns.run(card, job, serial, SampleRuns.PLAN, at));
  }

  /** Around midnights at which a week begins, before and after the clocks change. */
  @Test
  void yieldCountedByTheDatabaseIsThatOfAllRunsOneByOne() throws Exception {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    ZoneId zone = ZoneId.of("Europe/Berlin");
    List<JobCard> cards =
        List.of(SampleCards.passed(), SampleCards.failed(), SampleCards.notJudged());
    List<Instant> mondays =
        Stream.of("2026-10-19", "2026-10-26", "2026-11-02", "2027-03-29")
            .map(day -> LocalDate.parse(day).atStartOfDay(zone).toInstant())
            .toList();
    for (int i = 0; i < 36; i++) {
      Instant at = mondays.get(random.nextInt(4)).plusSeconds(random.nextInt(7200) - 3600);
      String serial = Integer.toString(random.nextInt(20));
      store.append(light("job " + random.nextInt(2), serial, cards.get(random.nextInt(3)), at));
    }
    Optional<String> any = Optional.empty();
    for (RunFilter filter :
        List.of(
            RunFilter.ALL,
            new RunFilter(
                Optional.of(mondays.get(1)),
                Optional.of(mondays.get(3)),
                Optional.of("job 1"),
                any,
                Optional.empty(),
                RunFilter.MOST),
            new RunFilter(
                Optional.empty(),
                Optional.empty(),
                any,
                any,
                Optional.of(Decision.PASS),
                RunFilter.MOST))) {
      List<BoxAttempt> all =
          store.list(filter).stream()
              .map(
                  run ->
                      new BoxAttempt(
                          run.job(), run.serial(), run.attempt(), run.finished(), run.decision()))
              .sorted(
                  Comparator.comparing(BoxAttempt::job)
                      .thenComparing(BoxAttempt::serial)
                      .thenComparing(BoxAttempt::attempt))
              .toList();
      assertEquals(
          WeeklyYield.of(all, zone), store.weeklyYield(filter, zone), filter + ", seed " + seed);
    }
  }

  private String serials(RunFilter filter) throws RecordsException {
    return String.join(" ", store.list(filter).stream().map(RunLine::serial).toList());
  }

  @Test
  void theDatabaseItselfRefusesToChangeOrDeleteAnything() throws Exception {
    BoxRun run = SampleRuns.withSecondSweep(SampleRuns.passed("one", "7", SampleRuns.MORNING));
    long id = store.append(run).id();
    store.overrule(
        store.run(id).orElseThrow(),
        new Overruling(SampleRuns.MORNING, "Grace", Decision.FAIL, "A dent at the corner."));
    try (Connection connection = pastTheStore(place);
        Statement statement = connection.createStatement()) {
      for (String table : TABLES) {
        String column = columnOf(statement, table);
        for (String line :
            List.of(
                "DELETE FROM " + table, "UPDATE " + table + " SET " + column + " = " + column)) {
          SQLException refused =
              assertThrows(SQLException.class, () -> statement.executeUpdate(line), line);
          assertTrue(refused.getMessage().contains("only ever added to"), refused.getMessage());
        }
      }
    }
    assertSame(run, store.run(id).orElseThrow().run());
  }

  static String columnOf(Statement statement, String table) throws SQLException {
    try (var rows = statement.executeQuery("SELECT * FROM " + table)) {
      assertTrue(rows.next(), table + " must hold a row, or nothing is tried");
      return rows.getMetaData().getColumnName(rows.getMetaData().getColumnCount());
    }
  }

  @Test
  void stationsThatWriteAtOnceNeverCountTheSameAttemptTwice() throws Exception {
    int each = 40;
    List<Integer> attempts = new ArrayList<>();
    ExecutorService stations = Executors.newFixedThreadPool(2);
    try (RecordStore other = RecordStore.open(place)) {
      List<Callable<List<Integer>>> shifts =
          List.of(() -> appendAll(store, each), () -> appendAll(other, each));
      for (Future<List<Integer>> shift : stations.invokeAll(shifts)) {
        attempts.addAll(shift.get(60, TimeUnit.SECONDS));
      }
    } finally {
      stations.shutdownNow();
    }
    assertEquals(
        IntStream.rangeClosed(1, 2 * each).boxed().toList(), attempts.stream().sorted().toList());
    assertEquals(2 * each, store.list(RunFilter.ofBox("one", "7")).size());
  }

  /** Each begins with a job and a plan that the other may be adding as well. */
  private static List<Integer> appendAll(RecordStore store, int count) throws RecordsException {
    List<Integer> attempts = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Instant at = SampleRuns.MORNING.plus(Duration.ofSeconds(i));
      attempts.add(store.append(SampleRuns.passed("one", "7", at)).attempt());
    }
    return attempts;
  }
}
