package conewise.analysis.fit;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.complex.Complex;

/**
 * Intervals by drawing the sweeps anew from the fit, with all that they may be off, and fitting
 * each (B. Efron, Ann. Stat. 7, 1979, parametric). What is known beforehand is drawn anew too, so
 * that the intervals of the fit and of the draws mean the same.
 */
public final class Bootstrap {
  private static final int MOST_STEPS = 100;
  private static final double TOLERANCE = 1e-8;
  private static final double LEAST_SETTLED = 0.9;
  private static final double LOW = 0.025;
  private static final double HIGH = 0.975;
  private static final int LEAST_DRAWS = 40;

  private final BoxFit fit;
  private final BoxProblem problem;
  private final Random random;

  private Bootstrap(BoxFit fit, Random random) {
    this.fit = fit;
    problem = fit.problem();
    this.random = random;
  }

  /**
   * The interval between the 2.5 % and 97.5 % points of a function of the quantities.
   *
   * @param draws at least 40
   * @param random everything follows from it
   * @return none where more than a tenth of the draws did not settle
   */
  public static Outcome<Estimate> interval(
      BoxFit fit, ToDoubleFunction<Values> function, int draws, Random random) {
    if (draws < LEAST_DRAWS) {
      throw new IllegalArgumentException(
          "the draws are " + draws + "; 2.5 % points need at least " + LEAST_DRAWS);
    }
    Bootstrap bootstrap = new Bootstrap(fit, random);
    List<Double> found = new ArrayList<>();
    for (int i = 0; i < draws; i++) {
      bootstrap.draw(function, found);
    }
    if (found.size() < LEAST_SETTLED * draws) {
      return Outcome.none(
          (draws - found.size()) + " of " + draws + " fits of drawn sweeps did not settle");
    }
    double value = function.applyAsDouble(fit::value);
    double[] sorted = found.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    double low = sorted[(int) Math.floor(LOW * (sorted.length - 1))];
    double high = sorted[(int) Math.ceil(HIGH * (sorted.length - 1))];
    return Outcome.found(
        new Estimate(value, new Interval(Math.min(low, value), Math.max(high, value))));
  }

  private void draw(ToDoubleFunction<Values> function, List<Double> found) {
    List<Sweep> sweeps = new ArrayList<>();
    for (int s = 0; s < problem.measured().size(); s++) {
      sweeps.add(drawn(s));
    }
    BoxProblem drawn = new BoxProblem(sweeps, problem.unknowns());
    drawn.drawPriors(fit.coordinates(), random);
    drawn.set(fit.discrepancy(), fit.coordinates());
    double[] start = drawn.free(fit.coordinates());
    if (LeastSquares.solve(drawn, start, MOST_STEPS, TOLERANCE)
        instanceof Found<Solution> solution) {
      BoxFit again =
          new BoxFit(drawn, drawn.coordinates(solution.value().parameters()), fit.discrepancy());
      found.add(function.applyAsDouble(again::value));
    }
  }

  private Sweep drawn(int s) {
    Sweep sweep = problem.measured().get(s);
    SweepEquations equations = problem.sweeps().get(s);
    ImpedanceCurve curve =
        Prediction.like(sweep.curve(), sweep.model(), equations.values(fit.coordinates()));
    Complex[] error = new DrawnErrors(equations, fit.discrepancy(), fit.coordinates()).draw(random);
    List<ImpedancePoint> points = new ArrayList<>();
    int next = 0;
    for (ImpedancePoint point : curve.points()) {
      points.add(point.frequencyHz() == 0 ? offDc(point) : off(point, error[next++]));
    }
    return new Sweep(sweep.model(), new ImpedanceCurve(points, curve.scaleUncertainty()));
  }

  private ImpedancePoint offDc(ImpedancePoint point) {
    double ohm =
        point.resistanceOhm() + point.standardUncertaintyOhm().orElse(0.0) * random.nextGaussian();
    return new ImpedancePoint(0, ohm, 0, point.uncertainty());
  }

  private static ImpedancePoint off(ImpedancePoint point, Complex error) {
    Complex z = new Complex(point.resistanceOhm(), point.reactanceOhm()).multiply(error.exp());
    return new ImpedancePoint(
        point.frequencyHz(), z.getReal(), z.getImaginary(), point.uncertainty());
  }
}
