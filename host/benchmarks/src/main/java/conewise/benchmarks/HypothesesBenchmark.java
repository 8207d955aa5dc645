package conewise.benchmarks;

import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.AuxCounters;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * What weighing costs against how many hypotheses there are: the time of a part of a box's faults
 * over the time of all of them is held against the part's share of the hypotheses, in one run.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
public class HypothesesBenchmark {
  private static final long SEED = 11;

  /** Drivers in the box. */
  @Param({"1", "2", "4"})
  private int drivers;

  /** What part of the faults is weighed, in percent. */
  @Param({"25", "50", "100"})
  private int percent;

  private PlannedBox plan;
  private List<SweptState> sweeps;
  private List<Fault> faults;
  private int distinct;

  /** How many hypotheses are weighed after merging, beside the time. */
  @State(Scope.Thread)
  @AuxCounters(AuxCounters.Type.EVENTS)
  public static class Weighed {
    /** Single faults and the good box, alike ones merged. */
    public int hypotheses;
  }

  /** Draws which faults, the same in every run. */
  @Setup(Level.Trial)
  public void draw() {
    plan = VerdictBenchmark.plan(drivers);
    sweeps = List.of(SweptState.asBuilt(VerdictBenchmark.measured(plan)));
    List<Fault> all = new ArrayList<>(Diagnosis.usualFaults(plan, Rates.USUAL));
    Collections.shuffle(all, new Random(SEED));
    faults = List.copyOf(all.subList(0, all.size() * percent / 100));
    distinct = Diagnosis.distinct(plan, faults);
  }

  /** A good box and a part of the faults, pairs of them too. */
  @Benchmark
  public Outcome<Diagnosis> weigh(Weighed weighed) {
    weighed.hypotheses = distinct;
    return Diagnosis.of(plan, sweeps, faults, List.of());
  }
}
