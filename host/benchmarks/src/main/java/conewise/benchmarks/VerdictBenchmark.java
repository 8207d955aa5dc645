package conewise.benchmarks;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Space;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** A whole verdict, every hypothesis weighed, for vented boxes of dual-coil drivers. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 4, time = 2)
@org.openjdk.jmh.annotations.Measurement(iterations = 5, time = 2)
public class VerdictBenchmark {
  private static final int POINTS = 150;
  private static final double NOISE = 0.003;

  private final Task one = new Task(1);
  private final Task two = new Task(2);
  private final Task four = new Task(4);

  /** One driver. */
  @Benchmark
  public Verdict oneDriver() {
    return one.judge();
  }

  /** Two drivers. */
  @Benchmark
  public Verdict twoDrivers() {
    return two.judge();
  }

  /** Four drivers. */
  @Benchmark
  public Verdict fourDrivers() {
    return four.judge();
  }

  /** A box with a sweep of it. */
  private static final class Task {
    private final PlannedBox plan;
    private final Measurement measurement;

    Task(int drivers) {
      plan = plan(drivers);
      measurement = Measurement.of(measured(plan));
    }

    Verdict judge() {
      return new BoxJudge().judge(plan, measurement);
    }
  }

  private static Optional<Stated> about(double value, double spread) {
    return Optional.of(new Stated(value, spread));
  }

  static PlannedBox plan(int drivers) {
    Stated coil = new Stated(3.6, 0.05);
    DriverKind kind =
        new DriverKind(
            "dual",
            List.of(coil, coil),
            about(32, 0.12),
            about(7, 0.3),
            about(0.6, 0.15),
            about(0.03, 0.15),
            Optional.empty(),
            Optional.empty());
    List<PlannedBox.PlacedDriver> placed = new ArrayList<>();
    List<Circuit> pairs = new ArrayList<>();
    for (int d = 0; d < drivers; d++) {
      String name = "d" + d;
      placed.add(new PlannedBox.PlacedDriver(name, "dual", "main", Space.OUTSIDE));
      pairs.add(Circuit.series(Circuit.coil(name, 1), Circuit.coil(name, 2)));
    }
    return new PlannedBox(
        "benchmark",
        List.of(kind),
        placed,
        List.of(new PlannedBox.PlannedSpace("main", about(0.03 * drivers, 0.03), false)),
        List.of(new PlannedBox.PlannedVent("port", "main", Space.OUTSIDE, about(34, 0.03))),
        List.of(),
        drivers == 1 ? pairs.get(0) : new Circuit.Parallel(pairs),
        0.05,
        Demands.NONE);
  }

  /** A good box, 5 % off its plan in all that may move. */
  static ImpedanceCurve measured(PlannedBox plan) {
    Random random = new Random(5);
    Network network = Network.of(plan.model());
    double[] values = network.nominal();
    for (int i = 0; i < values.length; i++) {
      values[i] *= network.quantities().get(i).kind().isLogarithmic() ? 1.05 : 1;
    }
    NetworkSolver truth = network.solver(values);
    List<ImpedancePoint> points = new ArrayList<>();
    for (int i = 0; i < POINTS; i++) {
      double hz = 10 * Math.pow(40, i / (POINTS - 1.0));
      truth.solve(hz);
      double sigma = NOISE * Math.hypot(truth.resistanceOhm(), truth.reactanceOhm());
      points.add(
          new ImpedancePoint(
              hz,
              truth.resistanceOhm() + sigma * random.nextGaussian(),
              truth.reactanceOhm() + sigma * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(sigma))));
    }
    return new ImpedanceCurve(points);
  }
}
