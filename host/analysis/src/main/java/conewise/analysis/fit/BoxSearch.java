package conewise.analysis.fit;

import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.math3.random.HaltonSequenceGenerator;

/**
 * Finds the best fit: from what the model states, and where that does not lead to a fit, from
 * starts spread over the frequencies and compliances that the box may have.
 */
final class BoxSearch {
  /** Along like drivers' differences, which show by their square, a fit may creep for long. */
  private static final int MOST_STEPS = 3000;

  private static final double TOLERANCE = 1e-9;

  /** Of the fits on the way, whose optimum only has to be near. */
  private static final double ROUGH = 1e-6;

  private static final int ROUNDS = 2;
  private static final int SPREAD_STARTS = 120;
  private static final int TRIED_STARTS = 5;
  private static final double WIDEST = Math.log(2.2);
  private static final double SPREADS = 2.5;

  /** A sum of squares per row, at the first weights of 1 %, that is a fit. */
  private static final double GOOD = 1;

  /** More than this left over is no fit at all, root mean square as a share of |Z|. */
  private static final double MOST_RESIDUAL = 0.08;

  /** A planned figure that is further off, in standard deviations, is not the plan's. */
  private static final double MOST_SPREADS = 8;

  /** The same of all figures together: the root of the sum of their squares. */
  private static final double MOST_SPREADS_OF_ALL = 10;

  private static final Set<Kind> SEARCHED =
      Set.of(Kind.RESONANCE, Kind.TUNING, Kind.EQUIVALENT_VOLUME, Kind.ELECTRICAL_Q);

  private final List<Unknown> unknowns;
  private final BoxProblem problem;

  BoxSearch(List<Sweep> sweeps, List<Unknown> unknowns) {
    this.unknowns = unknowns;
    problem = new BoxProblem(sweeps, unknowns);
    problem.set(SharedErrors.plain(sweeps));
  }

  Outcome<BoxFit> run(Discrepancy least) {
    Optional<String> few = tooFewPoints();
    if (few.isPresent()) {
      return Outcome.none(few.get());
    }
    Outcome<Solution> first = fromStated();
    if (!(first instanceof Found<Solution> found)) {
      return Outcome.none(((NoResult<Solution>) first).because());
    }
    double[] free = withLikeDriversApart(found.value());
    Discrepancy discrepancy = least;
    for (int round = 0; round < ROUNDS; round++) {
      double[] coordinates = problem.coordinates(free);
      DiscrepancySearch search = new DiscrepancySearch(problem, coordinates, least);
      discrepancy = round == 0 ? search.best() : search.refined(discrepancy);
      problem.set(search.errors(discrepancy));
      double tolerance = round == ROUNDS - 1 ? TOLERANCE : ROUGH;
      Outcome<Solution> next = LeastSquares.solve(problem, free, MOST_STEPS, tolerance);
      if (!(next instanceof Found<Solution> better)) {
        return Outcome.none(((NoResult<Solution>) next).because());
      }
      free = better.value().parameters();
    }
    BoxFit fit = new BoxFit(problem, problem.coordinates(free), discrepancy);
    Optional<String> wrong = farFromPlan(fit.coordinates()).or(() -> misfit(fit));
    return wrong.<Outcome<BoxFit>>map(Outcome::none).orElseGet(() -> Outcome.found(fit));
  }

  private static Optional<String> misfit(BoxFit fit) {
    return fit.relativeResidual() > MOST_RESIDUAL
        ? Optional.of(
            String.format(
                Locale.ROOT,
                "the model leaves %.1f %% of the curve over; at most %.0f %% may be",
                100 * fit.relativeResidual(),
                100 * MOST_RESIDUAL))
        : Optional.empty();
  }

  private Optional<String> farFromPlan(double[] coordinates) {
    double squares = 0;
    double farthest = 0;
    String name = "";
    for (int k = 0; k < unknowns.size(); k++) {
      double spreads = Math.abs(problem.offCentre(coordinates, k)) / unknowns.get(k).spread();
      squares += spreads * spreads;
      if (spreads > farthest) {
        farthest = spreads;
        name = unknowns.get(k).name();
      }
    }
    return farthest > MOST_SPREADS || Math.sqrt(squares) > MOST_SPREADS_OF_ALL
        ? Optional.of(
            String.format(
                Locale.ROOT,
                "the curve fits only with the %s %.1f times its tolerance off what is planned, and"
                    + " all figures together %.1f times; at most %.0f and %.0f may be: it is not"
                    + " the planned box, or not a box",
                name,
                farthest,
                Math.sqrt(squares),
                MOST_SPREADS,
                MOST_SPREADS_OF_ALL))
        : Optional.empty();
  }

  /**
   * Where like drivers differ, which of them is the stiffer and which the more lossy are questions
   * of their own, each with an optimum for either answer: the best of those next to a first one.
   */
  private double[] withLikeDriversApart(Solution first) {
    double[] best = first.parameters();
    double least = first.sumOfSquares();
    for (int k = 0; k < unknowns.size(); k++) {
      Kind kind = unknowns.get(k).moves().get(0).kind();
      if (!unknowns.get(k).inherent() || !SEARCHED.contains(kind)) {
        continue;
      }
      for (double side : new double[] {-1, 1}) {
        double[] coordinates = problem.coordinates(best);
        coordinates[k] = unknowns.get(k).centre() + side * unknowns.get(k).spread();
        Outcome<Solution> other =
            LeastSquares.solve(problem, problem.free(coordinates), MOST_STEPS, ROUGH);
        if (other instanceof Found<Solution> found && found.value().sumOfSquares() < least) {
          best = found.value().parameters();
          least = found.value().sumOfSquares();
        }
      }
    }
    return best;
  }

  private Optional<String> tooFewPoints() {
    int rows = problem.sweeps().stream().mapToInt(SweepEquations::rows).sum();
    long needed = unknowns.stream().filter(each -> Double.isInfinite(each.spread())).count();
    return rows <= needed
        ? Optional.of(
            rows
                + " numbers were measured, too few for "
                + needed
                + " unknowns of which nothing"
                + " is known beforehand")
        : Optional.empty();
  }

  private Outcome<Solution> fromStated() {
    double[] centres = problem.free(problem.centres());
    Outcome<Solution> plain = LeastSquares.solve(problem, centres, MOST_STEPS, ROUGH);
    if (plain instanceof Found<Solution> found
        && found.value().sumOfSquares() < GOOD * problem.rows()) {
      return plain;
    }
    Outcome<Solution> best = plain;
    for (double[] start : spreadStarts()) {
      Outcome<Solution> other = LeastSquares.solve(problem, start, MOST_STEPS, ROUGH);
      if (other instanceof Found<Solution> found
          && (!(best instanceof Found<Solution> before)
              || found.value().sumOfSquares() < before.value().sumOfSquares())) {
        best = other;
      }
    }
    return best;
  }

  /** The most promising of many points spread evenly (Halton 1960). */
  private List<double[]> spreadStarts() {
    int[] searched =
        java.util.stream.IntStream.range(0, unknowns.size())
            .filter(k -> SEARCHED.contains(unknowns.get(k).moves().get(0).kind()))
            .toArray();
    if (searched.length == 0) {
      return List.of();
    }
    HaltonSequenceGenerator halton = new HaltonSequenceGenerator(Math.min(40, searched.length));
    List<double[]> starts = new ArrayList<>();
    for (int i = 0; i < SPREAD_STARTS; i++) {
      double[] point = halton.nextVector();
      double[] coordinates = problem.centres();
      for (int d = 0; d < point.length; d++) {
        Unknown unknown = unknowns.get(searched[d]);
        double reach = Math.min(WIDEST, SPREADS * unknown.spread());
        coordinates[searched[d]] += reach * (2 * point[d] - 1);
      }
      starts.add(coordinates);
    }
    starts.sort(Comparator.comparingDouble(problem::cost));
    return starts.stream().limit(TRIED_STARTS).map(problem::free).toList();
  }
}
