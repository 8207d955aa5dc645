package conewise.benchmarks;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import conewise.station.report.RecordsPage;
import conewise.station.report.RecordsPageContent;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.Callable;

/**
 * Fills records with boxes and times what an owner asks of them: {@code RecordsBenchmark PLACE
 * BOXES}. A place that is empty is filled first, the same each time by a seed; one that was filled
 * is asked at once. Runs are kept without raw captures, which none of the questions reads. Beside
 * the time on the wall it tells the processor time, which other work on the machine changes less.
 */
public final class RecordsBenchmark {
  private static final int TIMES = 15;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();
  private static final Instant FIRST = Instant.parse("2025-01-06T07:00:00Z");
  private static final List<String> FAULTS =
      List.of("driver left is wired backwards", "the vent is closed", "a leak", "the vent is long");

  private RecordsBenchmark() {}

  public static void main(String[] arguments) throws Exception {
    int boxes = Integer.parseInt(arguments[1]);
    try (RecordStore store = RecordStore.open(RecordPlace.of(arguments[0]))) {
      int runs = runs(store);
      if (runs == 0) {
        long begun = System.nanoTime();
        runs = fill(store, boxes);
        System.out.printf(
            Locale.ROOT,
            "%d boxes, %d runs, %.2f ms an append%n",
            boxes,
            runs,
            (System.nanoTime() - begun) / 1e6 / runs);
      }
      long middle = runs / 2;
      time("list, newest 50", () -> store.list(RunFilter.ALL.atMost(50)));
      time("list, newest 50 that failed", () -> store.list(failed().atMost(50)));
      time("list, one box", () -> store.list(RunFilter.ofBox("job 3", "S000100")));
      RunLine.Place half =
          new RunLine.Place(store.run(middle).orElseThrow().run().finished(), middle);
      time("list, 50 from the middle", () -> store.listBefore(half, RunFilter.ALL.atMost(50)));
      time("one run whole", () -> store.run(middle));
      RunFilter weeks = since(Instant.ofEpochMilli(FIRST.toEpochMilli() + 300_000L * boxes / 2));
      time("weekly page, all", () -> page(store, RunFilter.ALL));
      time("weekly page, newer half", () -> page(store, weeks));
    }
  }

  private static int runs(RecordStore store) throws RecordsException {
    List<RunLine> newest = store.list(RunFilter.ALL.atMost(1));
    return newest.isEmpty() ? 0 : Math.toIntExact(newest.get(0).id());
  }

  private static String page(RecordStore store, RunFilter filter) throws RecordsException {
    return RecordsPage.write(RecordsPageContent.read(store, filter, ZoneOffset.UTC));
  }

  private static void time(String what, Callable<?> asked) throws Exception {
    double[] millis = new double[TIMES];
    double[] processor = new double[TIMES];
    for (int i = 0; i < TIMES; i++) {
      long begun = System.nanoTime();
      long worked = THREADS.getCurrentThreadCpuTime();
      asked.call();
      processor[i] = (THREADS.getCurrentThreadCpuTime() - worked) / 1e6;
      millis[i] = (System.nanoTime() - begun) / 1e6;
    }
    double first = millis[0];
    double firstProcessor = processor[0];
    Arrays.sort(millis);
    Arrays.sort(processor);
    System.out.printf(
        Locale.ROOT,
        "%-26s wall: first %7.1f ms, median %7.1f, shortest %7.1f; processor: first %7.1f,"
            + " median %7.1f%n",
        what,
        first,
        millis[TIMES / 2],
        millis[0],
        firstProcessor,
        processor[TIMES / 2]);
  }

  private static RunFilter failed() {
    return new RunFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(Decision.FAIL),
        RunFilter.MOST);
  }

  private static RunFilter since(Instant from) {
    return new RunFilter(
        Optional.of(from),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        RunFilter.MOST);
  }

  /** One in twenty-five fails at first and passes at its second attempt. */
  private static int fill(RecordStore store, int boxes) throws RecordsException {
    Random random = new Random(7);
    int runs = 0;
    for (int i = 0; i < boxes; i++) {
      Instant at = FIRST.plusSeconds(300L * i);
      boolean fails = random.nextInt(25) == 0;
      double tuning = 34 + 0.15 * random.nextGaussian();
      if (fails) {
        store.append(run(i, at, Decision.FAIL, tuning + 3, random));
        runs++;
      }
      store.append(run(i, at.plusSeconds(120), Decision.PASS, tuning, random));
      runs++;
    }
    return runs;
  }

  private static BoxRun run(
      int box, Instant at, Decision decision, double tuningHz, Random random) {
    List<Check> checks =
        List.of(
            check("polarity", "Relative polarity", decision, 0.999, ""),
            check("dc-resistance", "DC resistance", Decision.PASS, 3.45, "ohm"),
            check("tuning", "Vent tuning", decision, tuningHz, "Hz"));
    List<Verdict.Suspect> suspects =
        decision == Decision.PASS
            ? List.of()
            : List.of(
                new Verdict.Suspect(
                    List.of(FAULTS.get((int) (4 * random.nextDouble() * random.nextDouble()))),
                    "the curve",
                    "a pop test",
                    0.98));
    Verdict verdict =
        new Verdict(
            decision,
            decision == Decision.PASS ? "As planned." : "Wrong.",
            Optional.empty(),
            checks,
            suspects,
            List.of("Absolute polarity."),
            List.of(),
            List.of());
    return new BoxRun(
        BoxRun.newToken(),
        "job " + box % 7,
        String.format(Locale.ROOT, "S%06d", box),
        new PlanText("yaml", "plan: 2\nname: drawn\n"),
        Optional.of("operator " + box % 3),
        "bench 1",
        new JigUsed(
            Optional.of("CW-1"), "virtual", "0.1.0", Optional.of("CAL-1"), OptionalDouble.of(21)),
        at.minusSeconds(4),
        at,
        "0.1.0",
        Measurement.of(curve()),
        List.of(),
        List.of(),
        List.of(),
        verdict,
        List.of(),
        List.of());
  }

  private static Check check(
      String id, String title, Decision decision, double value, String unit) {
    Interval interval = new Interval(value * 0.99, value * 1.01);
    return new Check(
        id,
        title,
        decision,
        Outcome.found(new Check.Reading(value, interval, unit)),
        Optional.of(new Interval(value * 0.9, value * 1.1)),
        "As it is.",
        Optional.empty());
  }

  private static ImpedanceCurve curve() {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double hz = 10; hz < 400; hz *= 1.03) {
      points.add(new ImpedancePoint(hz, 4 + 20 / (1 + hz), hz / 100, Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }
}
