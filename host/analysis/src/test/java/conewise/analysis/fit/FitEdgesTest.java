package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.Quantity;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Curves at the edge of what can be fitted, and beyond, for every kind of box. */
class FitEdgesTest {
  private static final long SEED = 20260;

  private static ImpedanceCurve curve(
      double[] hz, DoubleFunction<Complex> z, double noise, boolean known, Random random) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : hz) {
      Complex at = z.apply(f);
      double sigma = noise * at.abs();
      double x = f == 0 ? 0 : at.getImaginary() + sigma * random.nextGaussian();
      points.add(
          new ImpedancePoint(
              f,
              at.getReal() + sigma * random.nextGaussian(),
              x,
              known ? Optional.of(ImpedanceUncertainty.circular(sigma)) : Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }

  private static double[] tones(int count) {
    double[] hz = new double[count];
    for (int i = 0; i < count; i++) {
      hz[i] = 9.5 * Math.pow(400 / 9.5, i / Math.max(1, count - 1.0));
    }
    return hz;
  }

  /** A fit, or a reason of words; no estimate but finite ones, each inside its interval. */
  private static Outcome<BoxFit> answered(BoxModel box, ImpedanceCurve curve, String where) {
    Outcome<BoxFit> outcome;
    try {
      outcome = BoxFit.of(List.of(new Sweep(box, curve)), UsualUnknowns.of(box));
    } catch (RuntimeException e) {
      throw new AssertionError(where + " threw", e);
    }
    if (outcome instanceof Found<BoxFit> found) {
      assertTrue(Double.isFinite(found.value().relativeResidual()), where);
      for (Quantity quantity : Network.of(box).quantities()) {
        assertTrue(Double.isFinite(found.value().value(quantity)), where + ", " + quantity);
        assertFinite(found.value(), quantity, where);
      }
    } else {
      String because = ((NoResult<BoxFit>) outcome).because();
      assertFalse(because.matches(".*(NaN|Infinity|null|Exception).*"), where + ": " + because);
    }
    return outcome;
  }

  private static void assertFinite(BoxFit fit, Quantity quantity, String where) {
    Outcome<Estimate> outcome;
    try {
      outcome = fit.estimate(quantity);
    } catch (RuntimeException e) {
      throw new AssertionError(where + ", " + quantity + " threw", e);
    }
    if (outcome instanceof Found<Estimate> found) {
      double low = found.value().interval().low();
      double high = found.value().interval().high();
      assertTrue(Double.isFinite(low) && Double.isFinite(high), where + ", " + quantity);
    }
  }

  private static void assertNoFit(BoxKind kind, DoubleFunction<Complex> z, String what) {
    BoxModel box = kind.plan(new Random(SEED));
    String where = kind + ", " + what + ", seed " + SEED;
    Outcome<BoxFit> outcome =
        answered(box, curve(tones(90), z, 0.003, true, new Random(SEED)), where);
    assertTrue(outcome instanceof NoResult<BoxFit>, where + " was taken for a box");
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void aResistorIsNoBoxOfAnyKind(BoxKind kind) {
    assertNoFit(kind, f -> new Complex(5), "a resistor of 5 ohm");
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void openTerminalsAreNoBoxOfAnyKind(BoxKind kind) {
    assertNoFit(kind, f -> new Complex(1e6), "open terminals of 1e6 ohm");
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void aCapacitorIsNoBoxOfAnyKind(BoxKind kind) {
    assertNoFit(kind, f -> new Complex(5, -1 / (2 * Math.PI * f * 1e-4)), "a capacitor of 100 uF");
  }

  /** From the plan alone: DC tells the coil, and nothing of resonances. */
  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void directCurrentAloneTellsNoResonance(BoxKind kind) {
    BoxModel box = kind.plan(new Random(SEED));
    Network network = Network.of(box);
    ImpedanceCurve dc = curve(new double[] {0}, network::impedance, 0.003, true, new Random(SEED));
    String where = kind + ", DC only, seed " + SEED;
    Outcome<BoxFit> outcome = answered(box, dc, where);
    if (outcome instanceof Found<BoxFit> found) {
      for (Quantity quantity : network.quantities()) {
        if (quantity.kind() == Quantity.Kind.RESONANCE || quantity.kind() == Quantity.Kind.TUNING) {
          Outcome<Estimate> estimate = found.value().estimate(quantity);
          assertTrue(estimate instanceof NoResult<Estimate>, where + ": " + estimate);
        }
      }
    }
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void twoPointsAreAnswered(BoxKind kind) {
    BoxModel box = kind.plan(new Random(SEED));
    DoubleFunction<Complex> z = Network.of(box)::impedance;
    answered(box, curve(tones(2), z, 0.003, true, new Random(SEED)), kind + ", seed " + SEED);
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void aCurveWithoutNoiseGivesThePlanBack(BoxKind kind) {
    BoxModel box = kind.plan(new Random(SEED));
    Network network = Network.of(box);
    for (boolean known : new boolean[] {true, false}) {
      String where = kind + ", uncertainty stated: " + known + ", seed " + SEED;
      ImpedanceCurve exact = curve(tones(90), network::impedance, 0, known, new Random(SEED));
      Outcome<BoxFit> outcome = answered(box, exact, where);
      assertTrue(outcome instanceof Found<BoxFit>, where + ": " + outcome);
      BoxFit fit = ((Found<BoxFit>) outcome).value();
      assertEquals(0, fit.relativeResidual(), 1e-6, where);
      double[] nominal = network.nominal();
      for (int i = 0; i < nominal.length; i++) {
        double back = fit.value(network.quantities().get(i));
        assertEquals(nominal[i], back, 1e-4 * Math.abs(nominal[i]), where);
      }
    }
  }

  /** Plans and curves of different boxes: whatever comes of it is a fit or a reason. */
  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void drawnCurvesOfOtherBoxesAreAnswered(BoxKind kind) {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    for (BoxKind other : BoxKind.values()) {
      BoxModel plan = kind.plan(random);
      Network truth = Network.of(other.plan(random));
      double factor = Math.exp(6 * random.nextDouble() - 3);
      double noise = new double[] {0, 1e-9, 0.003, 0.1, 1, 30}[random.nextInt(6)];
      int count = new int[] {1, 3, 10, 60}[random.nextInt(4)];
      ImpedanceCurve curve =
          curve(
              tones(count),
              f -> truth.impedance(f).multiply(factor),
              noise,
              random.nextBoolean(),
              random);
      answered(plan, curve, kind + " as " + other + ", seed " + seed);
    }
  }

  /** Rosenbrock's valley (Comput. J. 3, 1960) takes more steps than it is given here. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 4})
  void aSearchThatIsGivenTooFewStepsSaysSo(int steps) {
    Outcome<Solution> outcome =
        LeastSquares.solve(new Rosenbrock(), new double[] {-1.2, 1}, steps, 1e-12);
    assertTrue(outcome instanceof NoResult<Solution>, outcome.toString());
    assertEquals(
        "the fit did not settle within " + steps + " steps",
        ((NoResult<Solution>) outcome).because());
  }

  @Test
  void theSameSearchSettlesWhenItMay() {
    Outcome<Solution> outcome =
        LeastSquares.solve(new Rosenbrock(), new double[] {-1.2, 1}, 200, 1e-12);
    assertTrue(outcome instanceof Found<Solution>, outcome.toString());
    double[] at = ((Found<Solution>) outcome).value().parameters();
    assertEquals(1, at[0], 1e-9);
    assertEquals(1, at[1], 1e-9);
  }

  private static final class Rosenbrock implements LeastSquares.Problem {
    @Override
    public int rows() {
      return 2;
    }

    @Override
    public void evaluate(double[] p, double[] residuals, double[][] slopes) {
      residuals[0] = 10 * (p[1] - p[0] * p[0]);
      residuals[1] = 1 - p[0];
      slopes[0] = new double[] {-20 * p[0], 10};
      slopes[1] = new double[] {-1, 0};
    }
  }
}
