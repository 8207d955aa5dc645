package conewise.analysis.fit;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * How well sweeps bear out a box: the evidence, which is the probability density of what was
 * measured under all that the box may be, by Laplace's method about the best fit (R. E. Kass and A.
 * E. Raftery, J. Am. Stat. Assoc. 90, 1995, eq. 4). Boxes that explain the same sweeps, under the
 * same discrepancy, are compared by the difference of their logarithms.
 */
public final class Plausibility {
  /** A fit ends where a step would change the evidence by less than half of this. */
  private static final double GAIN = 0.02;

  private final BoxProblem problem;
  private final SharedErrors errors;
  private final double[] coordinates;
  private final boolean settled;
  private final double logEvidence;

  private Plausibility(
      BoxProblem problem,
      SharedErrors errors,
      double[] coordinates,
      boolean settled,
      double logEvidence) {
    this.problem = problem;
    this.errors = errors;
    this.coordinates = coordinates;
    this.settled = settled;
    this.logEvidence = logEvidence;
  }

  /**
   * Fits and weighs.
   *
   * @param unknowns what may move, each with a finite spread
   * @param errors the same for all boxes that are compared
   * @param starts where to begin: coordinates by the unknowns' names; those not named begin where
   *     they are expected. The best of all is taken
   * @param mostSteps evaluations for each start
   * @return none where no start led to a fit; one that has not settled says so
   */
  public static Outcome<Plausibility> of(
      List<Sweep> sweeps,
      List<Unknown> unknowns,
      SharedErrors errors,
      List<Map<String, Double>> starts,
      int mostSteps) {
    for (Unknown unknown : unknowns) {
      if (Double.isInfinite(unknown.spread())) {
        throw new IllegalArgumentException(
            "nothing is known beforehand of the " + unknown.name() + "; evidence needs a spread");
      }
    }
    BoxProblem problem = new BoxProblem(sweeps, unknowns);
    problem.set(errors);
    Outcome<Plausibility> best = Outcome.none("there was no start");
    for (Map<String, Double> start : starts) {
      Outcome<Plausibility> one = from(problem, errors, start, mostSteps);
      if (!(best instanceof Found<Plausibility> before)
          || (one instanceof Found<Plausibility> found
              && found.value().logEvidence > before.value().logEvidence)) {
        best = one;
      }
    }
    return best;
  }

  private static Outcome<Plausibility> from(
      BoxProblem problem, SharedErrors errors, Map<String, Double> start, int mostSteps) {
    QuickFit fit = new QuickFit(problem, problem.centres(start));
    boolean settled = fit.settle(mostSteps, GAIN);
    return weighed(problem, errors, fit.coordinates(), settled);
  }

  private static Outcome<Plausibility> weighed(
      BoxProblem problem, SharedErrors errors, double[] coordinates, boolean settled) {
    RealMatrix information = problem.information(coordinates);
    double spreads = 0;
    for (int k = 0; k < problem.parameters(); k++) {
      double spread = problem.spread(k);
      if (problem.isPlanned(k)) {
        information.addToEntry(k, k, 1 / (spread * spread));
      }
      spreads += Math.log(spread);
    }
    try {
      double determinant = new CholeskyDecomposition(information, 1e-6, 1e-30).getDeterminant();
      double twice =
          problem.cost(coordinates)
              + problem.logDeterminant()
              + Math.log(determinant)
              + 2 * spreads;
      return Double.isFinite(twice)
          ? Outcome.found(new Plausibility(problem, errors, coordinates, settled, -twice / 2))
          : Outcome.none("the evidence left the range of numbers");
    } catch (NonPositiveDefiniteMatrixException e) {
      return Outcome.none("the fit ended where the curve tells nothing");
    }
  }

  /** Natural logarithm of the evidence, but for a constant that all boxes share. */
  public double logEvidence() {
    return logEvidence;
  }

  /** False where the fit stopped short of its best: the evidence is then a lower bound, about. */
  public boolean settled() {
    return settled;
  }

  /** The best fit's coordinates by the unknowns' names, where another box's fit may begin. */
  public Map<String, Double> coordinates() {
    Map<String, Double> byName = new LinkedHashMap<>();
    for (int k = 0; k < problem.unknowns().size(); k++) {
      byName.put(problem.unknowns().get(k).name(), coordinates[k]);
    }
    return byName;
  }

  /** The best fit itself, with intervals. */
  public BoxFit fit() {
    return new BoxFit(problem, coordinates, errors.discrepancy());
  }

  /** The discrepancy that the residuals speak for, at least a given one. */
  public Discrepancy discrepancy(Discrepancy least) {
    return new DiscrepancySearch(problem, coordinates, least).best();
  }
}
