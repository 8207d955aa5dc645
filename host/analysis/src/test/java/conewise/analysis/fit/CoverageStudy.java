package conewise.analysis.fit;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.BoxFigures;
import conewise.analysis.parameter.BoxFigures.SpaceFigure;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.complex.Complex;

/**
 * Draws boxes, sweeps them with noise, fits them, and counts how often intervals hold the truth.
 */
final class CoverageStudy {

  /** What is counted of one figure. */
  static final class Tally {
    int tried;
    int found;
    int covered;
    private double squaredError;
    private final List<Double> arms = new ArrayList<>();

    double coverage() {
      return (double) covered / found;
    }

    double rms() {
      return Math.sqrt(squaredError / found);
    }

    double medianArm() {
      double[] sorted = arms.stream().mapToDouble(Double::doubleValue).sorted().toArray();
      return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
    }
  }

  private final BoxKind kind;
  private final TrueWorld world;
  private final double noise;
  private final double dcNoise;
  private final Discrepancy least;
  final Map<String, Tally> tallies = new LinkedHashMap<>();

  /** Sweeps that no fit was found for. */
  int lost;

  final Map<String, Integer> reasons = new LinkedHashMap<>();

  /**
   * A study.
   *
   * @param noise relative standard deviation of each point
   * @param dcNoise the same of the DC resistance
   */
  CoverageStudy(BoxKind kind, TrueWorld world, Discrepancy least, double noise, double dcNoise) {
    this.dcNoise = dcNoise;
    this.least = least;
    this.kind = kind;
    this.world = world;
    this.noise = noise;
  }

  /** Every sweep has a seed of its own, so that the order of threads does not matter. */
  void run(int sweeps, long seed) {
    IntStream.range(0, sweeps).parallel().forEach(i -> one(new Random(seed + 7919L * i)));
  }

  private void one(Random random) {
    BoxModel plan = kind.plan(random);
    List<Unknown> unknowns = UsualUnknowns.of(plan);
    Network network = Network.of(plan);
    double[] truth = network.nominal();
    for (Unknown unknown : unknowns) {
      double coordinate = unknown.spread() * random.nextGaussian();
      coordinate = Math.max(0.9 * unknown.low(), Math.min(0.9 * unknown.high(), coordinate));
      for (Quantity quantity : unknown.moves()) {
        int index = network.quantities().indexOf(quantity);
        truth[index] = Unknown.moved(quantity, truth[index], coordinate);
      }
    }
    TrueWorld.Built built = world.build(network, truth, random);
    ImpedanceCurve curve = sweep(network, built, random);
    Outcome<BoxFit> outcome = BoxFit.of(List.of(new Sweep(plan, curve)), unknowns, least);
    if (!(outcome instanceof Found<BoxFit> found)) {
      lose(((NoResult<BoxFit>) outcome).because());
      return;
    }
    BoxFit fit = found.value();
    figures()
        .forEach(
            (name, figure) ->
                count(name, figure.applyAsDouble(built.truth()), fit.estimate(name, figure)));
    if (kind == BoxKind.SEALED) {
      ClosedBox closed = ClosedBox.of(network, built);
      SpaceFigure space = BoxFigures.of(fit, plan).spaces().get(0);
      count("fc", closed.resonanceHz(), space.closedResonanceHz());
      count("Qtc", closed.totalQ(), space.closedTotalQ());
    }
  }

  /** The figures counted; of two like drivers their mean, since the terminals do not name them. */
  private Map<String, ToDoubleFunction<BoxFit.Values>> figures() {
    Map<String, ToDoubleFunction<BoxFit.Values>> map = new LinkedHashMap<>();
    map.put("Re", v -> mean(v, Kind.COIL_RESISTANCE));
    if (kind == BoxKind.SEALED) {
      return map;
    }
    map.put("fs", v -> mean(v, Kind.RESONANCE));
    map.put("Qts", this::totalQ);
    if (kind == BoxKind.PASSIVE_RADIATOR) {
      map.put("radiator", v -> v.of(new Quantity("radiator", Kind.RESONANCE)));
    } else if (kind != BoxKind.FREE_AIR) {
      map.put("tuning", v -> v.of(new Quantity("vent", Kind.TUNING)));
    }
    return map;
  }

  private double totalQ(BoxFit.Values v) {
    double qms = Driver.mechanicalQOf(mean(v, Kind.MECHANICAL_Q), mean(v, Kind.CREEP));
    double qes = mean(v, Kind.ELECTRICAL_Q);
    return qms * qes / (qms + qes);
  }

  private double mean(BoxFit.Values values, Kind figure) {
    if (kind == BoxKind.TWO_DRIVERS_VENTED && figure != Kind.CREEP) {
      return Math.sqrt(values.of(new Quantity("a", figure)) * values.of(new Quantity("b", figure)));
    }
    return values.of(new Quantity(kind == BoxKind.FREE_AIR ? "driver" : "a", figure));
  }

  private synchronized void lose(String because) {
    lost++;
    reasons.merge(because, 1, Integer::sum);
  }

  private synchronized void count(String name, double truth, Outcome<Estimate> outcome) {
    Tally tally = tallies.computeIfAbsent(name, key -> new Tally());
    tally.tried++;
    if (outcome instanceof Found<Estimate> found) {
      tally.found++;
      tally.covered += found.value().interval().contains(truth) ? 1 : 0;
      tally.squaredError += Math.pow(found.value().value() / truth - 1, 2);
      tally.arms.add(found.value().relativeWidth());
    } else {
      reasons.merge(((NoResult<Estimate>) outcome).because(), 1, Integer::sum);
    }
  }

  /** About a hundred tones from 9.5 to 400 Hz and the DC resistance. */
  private ImpedanceCurve sweep(Network network, TrueWorld.Built built, Random random) {
    NetworkSolver solver = network.solver(built.valuesAt(0));
    List<ImpedancePoint> points = new ArrayList<>();
    solver.solve(0);
    double dc = solver.resistanceOhm();
    points.add(
        new ImpedancePoint(
            0,
            dc * (1 + dcNoise * random.nextGaussian()),
            0,
            Optional.of(ImpedanceUncertainty.ofResistance(dcNoise * dc))));
    for (double f : tones()) {
      solver.set(built.valuesAt(f));
      solver.solve(f);
      Complex z =
          new Complex(solver.resistanceOhm(), solver.reactanceOhm())
              .multiply(built.converterAt(f, random));
      double sigma = noise * z.abs();
      points.add(
          new ImpedancePoint(
              f,
              z.getReal() + sigma * random.nextGaussian(),
              z.getImaginary() + sigma * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(sigma))));
    }
    return new ImpedanceCurve(points);
  }

  private static double[] tones() {
    double[] tones = new double[110];
    for (int i = 0; i < tones.length; i++) {
      tones[i] = 9.5 * Math.pow(400 / 9.5, i / (tones.length - 1.0));
    }
    return tones;
  }

  String figuresText() {
    StringBuilder text = new StringBuilder(kind + " " + world + " noise " + noise + ":");
    tallies.forEach(
        (name, t) ->
            text.append(
                String.format(
                    Locale.ROOT,
                    " %s %d/%d covered %.3f rms %.4f arm %.4f;",
                    name,
                    t.found,
                    t.tried,
                    t.coverage(),
                    t.rms(),
                    t.medianArm())));
    return text + " " + reasons;
  }
}
