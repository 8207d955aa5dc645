package conewise.analysis.fit;

import conewise.analysis.fit.UntoldDifferences.Spread;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Quantity;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * A box fitted to its sweeps by least squares on the logarithm of complex impedance, each point
 * weighted by its variance and by what the model may be off. Immutable.
 *
 * <p>Intervals are those of the linear law of propagation (JCGM 100, 5.2.2) at 95 %; {@link
 * ProfileInterval} and {@link Bootstrap} give intervals that do not take the model as straight.
 */
public final class BoxFit {
  static final double COVERAGE_FACTOR = 1.96;
  private static final double STEP = 1e-5;

  /** What rounding leaves of an eigenvalue that is 0, over the largest. */
  private static final double ROUNDING = 1e-15;

  private static final double LEAST_NARROWING = 0.5;

  /** A figure is told to a factor of about two, up or down, or not at all. */
  private static final double MOST_RELATIVE_DEVIATION = 0.35;

  /** Relative change of a function, for one step of a coordinate, from which the latter matters. */
  private static final double MATTERS = 0.02;

  private final BoxProblem problem;
  private final double[] coordinates;
  private final Discrepancy discrepancy;
  private final RealMatrix covariance;
  private final Identifiability identifiability;

  /** Worked out when the first figure is asked for. */
  private UntoldDifferences differences;

  BoxFit(BoxProblem problem, double[] coordinates, Discrepancy discrepancy) {
    this.problem = problem;
    this.coordinates = coordinates;
    this.discrepancy = discrepancy;
    RealMatrix information = problem.information(coordinates);
    identifiability = Identifiability.of(problem.unknowns(), information);
    for (int k = 0; k < problem.parameters(); k++) {
      double spread = problem.isPlanned(k) ? problem.spread(k) : Double.POSITIVE_INFINITY;
      information.addToEntry(k, k, 1 / (spread * spread) + 1e-12);
    }
    covariance = inverse(information);
  }

  /**
   * By eigenvalues, each raised to what rounding may leave of it: a direction that nothing tells
   * then has a variance that is huge, and never one that is nought or negative.
   */
  private static RealMatrix inverse(RealMatrix information) {
    EigenDecomposition eigen = new EigenDecomposition(information);
    int size = information.getRowDimension();
    double floor = ROUNDING * size * eigen.getRealEigenvalue(0);
    RealMatrix inverse = new Array2DRowRealMatrix(size, size);
    for (int i = 0; i < size; i++) {
      RealVector direction = eigen.getEigenvector(i);
      double variance = 1 / Math.max(floor, eigen.getRealEigenvalue(i));
      inverse = inverse.add(direction.outerProduct(direction).scalarMultiply(variance));
    }
    return inverse;
  }

  /**
   * Fits, with a discrepancy that the residuals speak for, at least the usual one.
   *
   * @param sweeps at least one; several are fitted together, and share quantities by name
   * @param unknowns what may move; all else stays as the models state it
   * @return the fit, or why there is none: too few points, not settled, or no fit
   */
  public static Outcome<BoxFit> of(List<Sweep> sweeps, List<Unknown> unknowns) {
    return of(sweeps, unknowns, Discrepancy.USUAL);
  }

  /**
   * The same where what a model is off at least is stated: {@link Discrepancy#NONE} for data that
   * are known to come from the model.
   */
  public static Outcome<BoxFit> of(List<Sweep> sweeps, List<Unknown> unknowns, Discrepancy least) {
    return new BoxSearch(sweeps, unknowns).run(least);
  }

  /** How far the model is off beyond noise. */
  public Discrepancy discrepancy() {
    return discrepancy;
  }

  /**
   * What the fit leaves over, as a share of |Z|: root mean square of the logarithm of model over
   * measured, its real and its imaginary part, of all points above 0 Hz.
   */
  public double relativeResidual() {
    double sum = 0;
    int count = 0;
    for (int s = 0; s < problem.sweeps().size(); s++) {
      double[] residuals = problem.raw(s, coordinates).residuals();
      int points = problem.sweeps().get(s).points();
      for (int i = 0; i < 2 * points; i++) {
        sum += residuals[i] * residuals[i];
      }
      count += 2 * points;
    }
    return Math.sqrt(sum / Math.max(1, count));
  }

  /** What was fitted, in the order in which it was given. */
  public List<Sweep> sweeps() {
    return problem.measured();
  }

  /** The factor that the measured curves have in common over the box's own impedance. */
  public double scale() {
    return Math.exp(-coordinates[problem.unknowns().size()]);
  }

  /**
   * The impedance that the box of one sweep has by this fit, free of {@link #scale}.
   *
   * @param sweep which, from 0
   * @param frequencyHz at least one, rising
   */
  public ImpedanceCurve curve(int sweep, double... frequencyHz) {
    double[] values = problem.sweeps().get(sweep).values(coordinates).clone();
    return PredictedCurve.of(problem.measured().get(sweep).model(), values, frequencyHz);
  }

  /**
   * How far a sweep may depart from the fit by its own noise and the discrepancy together: the
   * standard deviation of the logarithm of |Z|, which is that of the angle in radian, at each point
   * above 0 Hz.
   *
   * @param sweep which, from 0
   */
  public double[] explained(int sweep) {
    return problem.sweeps().get(sweep).explained(discrepancy, coordinates);
  }

  /**
   * What of {@link #explained} is each point's own: its noise and the scattered part of the
   * discrepancy.
   *
   * @param sweep which, from 0
   */
  public double[] scattered(int sweep) {
    double[] noise = problem.sweeps().get(sweep).noise();
    return Arrays.stream(noise).map(each -> Math.hypot(each, discrepancy.scattered())).toArray();
  }

  /**
   * Planned figures that the fit moved far from where they were expected.
   *
   * @param spreads from so many of their spreads on
   * @return by the unknown's name how many spreads it lies away
   */
  public Map<String, Double> strays(double spreads) {
    Map<String, Double> strays = new LinkedHashMap<>();
    for (int k = 0; k < problem.unknowns().size(); k++) {
      double away = Math.abs(problem.offCentre(coordinates, k)) / problem.spread(k);
      if (away >= spreads) {
        strays.put(problem.unknowns().get(k).name(), away);
      }
    }
    return strays;
  }

  /** How many independent combinations of the unknowns the sweeps tell. */
  public int rank() {
    return identifiability.rank();
  }

  /** The sets of unknowns, by name, that may move together without the sweeps showing it. */
  public List<List<String>> openSets() {
    return identifiability.openSets();
  }

  /** The fitted value of a quantity, fixed ones included. */
  public double value(Quantity quantity) {
    return value(quantity, coordinates);
  }

  private double value(Quantity quantity, double[] at) {
    for (SweepEquations sweep : problem.sweeps()) {
      int index = sweep.quantities().indexOf(quantity);
      if (index >= 0) {
        return sweep.values(at)[index];
      }
    }
    throw new IllegalArgumentException("no sweep's model has a " + quantity);
  }

  /** A quantity with its interval, or why the sweeps do not give it. */
  public Outcome<Estimate> estimate(Quantity quantity) {
    return estimate(quantity.toString(), values -> values.of(quantity));
  }

  /** The values of the quantities at some point of a fit. */
  public interface Values {
    /** The value of one quantity, in its own unit. */
    double of(Quantity quantity);
  }

  /**
   * A function of the quantities with its interval.
   *
   * @param name what it is, for the reason if there is no result
   * @param function finite and smooth about the fit; its interval is linear
   * @return none where the sweeps do not at least halve what was uncertain beforehand, or where an
   *     unknown that matters sits at its limit
   */
  public Outcome<Estimate> estimate(String name, ToDoubleFunction<Values> function) {
    double value = at(function, coordinates);
    double[] gradient = gradient(function);
    Optional<String> limit = atLimit(gradient, value);
    if (limit.isPresent()) {
      return Outcome.none(name + " is not told: the fit ran into the limit set for " + limit.get());
    }
    Spread spread = spread(function, gradient, value);
    if (!(spread.deviation() <= mostDeviation(gradient, value))) {
      return Outcome.none(notTold(name, gradient));
    }
    return Double.isFinite(spread.mean() + spread.deviation())
        ? Outcome.found(Estimate.within(spread.mean(), COVERAGE_FACTOR * spread.deviation()))
        : Outcome.none(name + " left the range of numbers");
  }

  private Spread spread(ToDoubleFunction<Values> function, double[] gradient, double value) {
    if (!UntoldDifferences.exist(problem, covariance)) {
      return new Spread(value, deviation(gradient));
    }
    if (differences == null) {
      differences = new UntoldDifferences(problem, coordinates, covariance);
    }
    return differences.of(at -> at(function, at), gradient);
  }

  /** The sweeps tell a value when they halve what was uncertain of it beforehand. */
  private double mostDeviation(double[] gradient, double value) {
    double sum = 0;
    for (int k = 0; k < gradient.length; k++) {
      double part = gradient[k] == 0 ? 0 : gradient[k] * problem.spread(k);
      sum += part * part;
    }
    return Math.min(MOST_RELATIVE_DEVIATION * Math.abs(value), Math.sqrt(sum) * LEAST_NARROWING);
  }

  private String notTold(String name, double[] gradient) {
    List<String> others = new ArrayList<>(identifiability.openWith(gradient));
    others.remove(name);
    return others.isEmpty()
        ? name + " is not told by the sweep: it hardly shows in the curve"
        : String.format(
            Locale.ROOT,
            "%s is not told by the sweep: it can change together with %s and the curve stays",
            name,
            String.join(", ", others));
  }

  private double at(ToDoubleFunction<Values> function, double[] at) {
    return function.applyAsDouble(quantity -> value(quantity, at));
  }

  private double[] gradient(ToDoubleFunction<Values> function) {
    double[] gradient = new double[problem.parameters()];
    for (int k = 0; k < problem.unknowns().size(); k++) {
      double[] up = coordinates.clone();
      double[] down = coordinates.clone();
      up[k] += STEP;
      down[k] -= STEP;
      gradient[k] = (at(function, up) - at(function, down)) / (2 * STEP);
    }
    return gradient;
  }

  private double deviation(double[] gradient) {
    RealVector g = new ArrayRealVector(gradient, false);
    return Math.sqrt(Math.max(0, covariance.operate(g).dotProduct(g)));
  }

  private Optional<String> atLimit(double[] gradient, double value) {
    for (int k = 0; k < problem.unknowns().size(); k++) {
      if (Math.abs(gradient[k]) > MATTERS * Math.abs(value)
          && problem.isAtLimit(k, coordinates[k])) {
        return Optional.of(problem.unknowns().get(k).name());
      }
    }
    return Optional.empty();
  }

  BoxProblem problem() {
    return problem;
  }

  double[] coordinates() {
    return coordinates.clone();
  }

  /** Standard deviation of an unknown's coordinate. */
  double deviation(int unknown) {
    return Math.sqrt(covariance.getEntry(unknown, unknown));
  }

  /**
   * What the sweeps would tell together with one more of the same box in another state, at the same
   * frequencies and with the same noise: so a second measurement can be chosen before it is made.
   *
   * @param second the box then; its stated values are those of the first sweep's model
   * @return the sets that would still be open
   */
  public List<List<String>> openSetsAfter(BoxModel second) {
    return after(second).openSets();
  }

  /**
   * The sets of {@link #openSets} that one more sweep would narrow: what is open of their unknowns
   * would become less than half of what it is.
   *
   * @param second as in {@link #openSetsAfter}
   */
  public List<List<String>> narrowedAfter(BoxModel second) {
    Identifiability after = after(second);
    return openSets().stream()
        .filter(set -> after.deviationOf(set) < LEAST_NARROWING * identifiability.deviationOf(set))
        .toList();
  }

  private Identifiability after(BoxModel second) {
    List<Sweep> sweeps = new ArrayList<>(problem.measured());
    ImpedanceCurve first = sweeps.get(0).curve();
    Sweep blank = new Sweep(second, first);
    double[] values = new SweepEquations(blank, problem.unknowns()).values(coordinates);
    sweeps.add(new Sweep(second, Prediction.like(first, second, values)));
    BoxProblem both = new BoxProblem(sweeps, problem.unknowns());
    both.set(discrepancy, coordinates);
    return Identifiability.of(problem.unknowns(), both.information(coordinates));
  }
}
