package conewise.analysis.fit;

import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.model.Quantity;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.OptionalDouble;

/**
 * An interval from the profile of the likelihood (Venzon and Moolgavkar, Appl. Stat. 37, 1988): the
 * values of one unknown for which the best fit of all others is worse by no more than the 95 %
 * point of chi-squared. It does not take the model as straight, and may reach further to one side.
 */
public final class ProfileInterval {
  /** The 95 % point of chi-squared with one degree of freedom. */
  private static final double RISE = 3.841;

  private static final int MOST_STEPS = 60;
  private static final int MOST_DOUBLINGS = 8;
  private static final int BISECTIONS = 24;
  private static final double TOLERANCE = 1e-9;

  private final BoxProblem problem;
  private final double[] best;
  private final int fixed;

  private ProfileInterval(BoxFit fit, int fixed) {
    problem = fit.problem();
    best = fit.coordinates();
    this.fixed = fixed;
  }

  /**
   * The interval of a quantity that one unknown of the fit moves.
   *
   * @return none where no unknown moves it, several do, or the profile stays flat to a side
   */
  public static Outcome<Estimate> of(BoxFit fit, Quantity quantity) {
    int[] movers =
        java.util.stream.IntStream.range(0, fit.problem().unknowns().size())
            .filter(k -> fit.problem().unknowns().get(k).moves().contains(quantity))
            .toArray();
    if (movers.length != 1) {
      return Outcome.none(
          quantity + " is moved by " + movers.length + " unknowns; a profile needs exactly 1");
    }
    ProfileInterval profile = new ProfileInterval(fit, movers[0]);
    double step = Math.max(1e-6, fit.deviation(movers[0]));
    OptionalDouble low = profile.end(-step);
    OptionalDouble high = profile.end(step);
    if (low.isEmpty() || high.isEmpty()) {
      return Outcome.none(
          "the profile of " + quantity + " does not rise to a side: the sweeps leave it open");
    }
    double value = fit.value(quantity);
    double stated = Unknown.moved(quantity, value, -profile.best[movers[0]]);
    return Outcome.found(
        new Estimate(
            value,
            new Interval(
                Unknown.moved(quantity, stated, low.getAsDouble()),
                Unknown.moved(quantity, stated, high.getAsDouble()))));
  }

  /** The coordinate at which the profile has risen by the point of chi-squared, to one side. */
  private OptionalDouble end(double step) {
    double floor = problem.cost(best);
    Unknown unknown = problem.unknowns().get(fixed);
    double inside = best[fixed];
    double outside = inside;
    double reach = 2 * step;
    for (int i = 0; i < MOST_DOUBLINGS; i++, reach *= 2) {
      outside = best[fixed] + reach;
      if (outside <= unknown.low() || outside >= unknown.high()) {
        return OptionalDouble.empty();
      }
      if (cost(outside) > floor + RISE) {
        return OptionalDouble.of(bisect(inside, outside, floor + RISE));
      }
      inside = outside;
    }
    return OptionalDouble.empty();
  }

  private double bisect(double inside, double outside, double level) {
    double in = inside;
    double out = outside;
    for (int i = 0; i < BISECTIONS; i++) {
      double middle = (in + out) / 2;
      if (cost(middle) > level) {
        out = middle;
      } else {
        in = middle;
      }
    }
    return (in + out) / 2;
  }

  /** The least sum of squares with the unknown held. */
  private double cost(double held) {
    double[] coordinates = best.clone();
    coordinates[fixed] = held;
    double[] whole = problem.free(coordinates);
    HeldProblem rest = new HeldProblem(problem, fixed, whole);
    return LeastSquares.solve(rest, rest.start(), MOST_STEPS, TOLERANCE)
            instanceof Found<Solution> found
        ? found.value().sumOfSquares()
        : Double.POSITIVE_INFINITY;
  }

  /** A problem with one of its parameters held. */
  private static final class HeldProblem implements LeastSquares.Problem {
    private final BoxProblem whole;
    private final int held;
    private final double[] at;

    HeldProblem(BoxProblem whole, int held, double[] at) {
      this.whole = whole;
      this.held = held;
      this.at = at;
    }

    double[] start() {
      double[] start = new double[at.length - 1];
      for (int i = 0; i < start.length; i++) {
        start[i] = at[i < held ? i : i + 1];
      }
      return start;
    }

    @Override
    public int rows() {
      return whole.rows();
    }

    @Override
    public void evaluate(double[] parameters, double[] residuals, double[][] slopes) {
      double[] all = at.clone();
      for (int i = 0; i < parameters.length; i++) {
        all[i < held ? i : i + 1] = parameters[i];
      }
      double[][] wide = new double[residuals.length][at.length];
      whole.evaluate(all, residuals, wide);
      for (int row = 0; row < residuals.length; row++) {
        for (int i = 0; i < parameters.length; i++) {
          slopes[row][i] = wide[row][i < held ? i : i + 1];
        }
      }
    }
  }
}
