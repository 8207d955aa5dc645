package conewise.benchmarks;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.fit.Plausibility;
import conewise.analysis.fit.SharedErrors;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.Unknown;
import conewise.analysis.fit.UsualUnknowns;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A vented box of two like drivers, 150 points, eight unknowns: the curve, the fit, and the fit
 * with its search for what the model is off. The reference fits the same curve with the same
 * unknowns. Beside it, one hypothesis of a diagnosis: two dual-coil drivers, 17 unknowns.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 10, time = 1)
@Measurement(iterations = 5, time = 1)
public class FitBenchmark {
  static final int POINTS = 150;
  private static final int THIN_POINTS = 40;
  private static final int MOST_STEPS = 60;
  private static final double NOISE = 0.005;

  private final BoxModel box = box(1);
  private final Network network = Network.of(box);
  private final NetworkSolver solver = network.solver(network.nominal());
  private final double[] hz = frequencies(POINTS);
  private final List<Sweep> sweep = List.of(new Sweep(box, measured(network, hz)));
  private final List<Unknown> unknowns = unknowns();
  private final HypothesisTask thin = new HypothesisTask(THIN_POINTS);
  private final HypothesisTask whole = new HypothesisTask(POINTS);

  /** The model's curve. */
  @Benchmark
  public double curve() {
    double sum = 0;
    for (double f : hz) {
      solver.solve(f);
      sum += solver.resistanceOhm();
    }
    return sum;
  }

  /** The fit, from 8 % off in every unknown, with its search for the discrepancy and intervals. */
  @Benchmark
  public Outcome<BoxFit> fit() {
    return BoxFit.of(sweep, unknowns);
  }

  /** The same fit where its errors are given: no search, no intervals. */
  @Benchmark
  public Outcome<Plausibility> fitGivenErrors() {
    return fitted(sweep, unknowns, SharedErrors.plain(sweep), Map.of());
  }

  /** One hypothesis of a box of two dual-coil drivers, all that usually moves, on few points. */
  @Benchmark
  public Outcome<Plausibility> hypothesisThin() {
    return thin.weigh();
  }

  /** The same on all points. */
  @Benchmark
  public Outcome<Plausibility> hypothesisWhole() {
    return whole.weigh();
  }

  /** A hypothesis as a diagnosis weighs it: errors shared, from where a rougher fit ended. */
  private static final class HypothesisTask {
    private final List<Sweep> sweep;
    private final List<Unknown> usual;
    private final SharedErrors errors;
    private final Map<String, Double> start;

    HypothesisTask(int points) {
      BoxModel dual = UsualUnknowns.withUsualLosses(box(2));
      usual = UsualUnknowns.of(dual);
      sweep = List.of(new Sweep(dual, measured(Network.of(dual), frequencies(points))));
      Outcome<Plausibility> rough = fitted(sweep, usual, SharedErrors.plain(sweep), Map.of());
      start = ((Outcome.Found<Plausibility>) rough).value().coordinates();
      errors = SharedErrors.about(sweep, usual, start, Discrepancy.USUAL);
    }

    Outcome<Plausibility> weigh() {
      return fitted(sweep, usual, errors, start);
    }
  }

  private static Outcome<Plausibility> fitted(
      List<Sweep> sweep, List<Unknown> unknowns, SharedErrors errors, Map<String, Double> start) {
    return Plausibility.of(sweep, unknowns, errors, List.of(start), MOST_STEPS);
  }

  private static double[] frequencies(int points) {
    double[] hz = new double[points];
    for (int i = 0; i < points; i++) {
      hz[i] = 10 * Math.pow(40, i / (points - 1.0));
    }
    return hz;
  }

  private static BoxModel box(int coils) {
    Driver driver =
        Driver.of(32, 6, 0.45, 0.05, coils, 7)
            .withInductance(Inductance.lossy(0.02, 0.7), coils > 1 ? 0.8 : 0);
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(new Space("main", 0.06)),
        List.of(
            new Mounted("a", driver, "main", Space.OUTSIDE),
            new Mounted("b", driver, "main", Space.OUTSIDE),
            new Vent("vent", 34, 60, "main", Space.OUTSIDE),
            new Leak("leak", 12, "main", Space.OUTSIDE)),
        Circuit.parallel(coils("a", coils), coils("b", coils)));
  }

  private static Circuit coils(String driver, int count) {
    return count == 1
        ? Circuit.coil(driver, 1)
        : Circuit.series(Circuit.coil(driver, 1), Circuit.coil(driver, 2));
  }

  private static List<Unknown> unknowns() {
    List<Unknown> list = new ArrayList<>();
    for (Kind kind :
        List.of(
            Kind.RESONANCE,
            Kind.MECHANICAL_Q,
            Kind.ELECTRICAL_Q,
            Kind.EQUIVALENT_VOLUME,
            Kind.COIL_RESISTANCE,
            Kind.LOSSY_INDUCTANCE)) {
      list.add(Unknown.planned(0.3, new Quantity("a", kind), new Quantity("b", kind)));
    }
    list.add(Unknown.planned(0.3, new Quantity("vent", Kind.TUNING)));
    list.add(Unknown.planned(0.3, new Quantity("leak", Kind.LEAK_Q)));
    return list;
  }

  private static ImpedanceCurve measured(Network network, double[] hz) {
    Random random = new Random(3);
    double[] values = network.nominal();
    for (int i = 0; i < values.length; i++) {
      boolean moved = network.quantities().get(i).kind() != Kind.VOLUME;
      values[i] *= moved && network.quantities().get(i).kind().isLogarithmic() ? 1.08 : 1;
    }
    NetworkSolver truth = network.solver(values);
    return new ImpedanceCurve(
        Arrays.stream(hz)
            .mapToObj(
                f -> {
                  truth.solve(f);
                  double re = truth.resistanceOhm();
                  double im = truth.reactanceOhm();
                  double sigma = NOISE * Math.hypot(re, im);
                  return new ImpedancePoint(
                      f,
                      re + sigma * random.nextGaussian(),
                      im + sigma * random.nextGaussian(),
                      Optional.of(ImpedanceUncertainty.circular(sigma)));
                })
            .toList());
  }
}
