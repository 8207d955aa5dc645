package conewise.analysis.feature;

import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.nodal.BoxFamily;
import conewise.analysis.nodal.BoxFamily.Bounds;
import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.BoxFamily.Kind;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome.Found;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Bias, spread and coverage of the tuning and the DC resistance over drawn vented boxes, solved by
 * node equations of the tests' own. Alignment, losses (box Q 5 to 20), coil (up to four times the
 * resistance at 1 kHz), one to four unequal drivers.
 */
class TuningCoverageTest {
  private static final int BOXES = 100;

  private static double[] grid(String name) {
    return switch (name) {
      case "comb" -> NodalBox.comb(10, 400, 1);
      case "log" -> NodalBox.logarithmic(8, 1000, 150);
      default -> NodalBox.logarithmic(10, 400, 40);
    };
  }

  @ParameterizedTest
  @CsvSource({
    "comb, 0.002, 0.10, 4001",
    "comb, 0.01, 0.05, 4002",
    "log, 0.002, 0.05, 4003",
    "sparse, 0.002, 0.10, 4004",
    "sparse, 0.01, 0.05, 4005"
  })
  void intervalsHoldTheTruthAndStayWithinThreePercent(
      String grid, double noise, double spread, long seed) {
    Bounds bounds = new Bounds(4, 0.15, spread, 0.2, 4, 2);
    Tally tally = run(grid, noise, seed, bounds, built -> {});
    tally.requireGood(0.03);
  }

  /**
   * A coil of another form than the fitted one: an inductance, and a second one with a resistance
   * across it (common practice), under which the |Z| dip is far off; the interval may be wider.
   */
  @Test
  void intervalsHoldTheTruthWithACoilOfAnotherForm() {
    long seed = 4006;
    Random r = new Random(seed);
    Tally tally =
        run(
            "comb",
            0.002,
            seed,
            new Bounds(2, 0.15, 0.05, 0.2, 0.4, 1),
            built ->
                built.box().drivers.stream()
                    .flatMap(driver -> driver.coils.stream())
                    .forEach(
                        coil -> {
                          coil.inductance = coil.resistance * (0.2e-3 + 0.3e-3 * r.nextDouble());
                          coil.parallelResistance = coil.resistance * (0.5 + r.nextDouble());
                        }));
    tally.requireGood(0.04);
  }

  private static Tally run(
      String grid, double noise, long seed, Bounds bounds, Consumer<Built> change) {
    Random r = new Random(seed);
    Tally tally = new Tally(seed, grid, noise);
    for (int i = 0; i < BOXES; i++) {
      Built built = BoxFamily.draw(r, Kind.VENTED, false, bounds);
      change.accept(built);
      CurveFeatures features = CurveFeatures.of(built.box().curve(grid(grid), noise, r));
      tally.add(features, built);
    }
    return tally;
  }

  private static final class Tally {
    private final String name;
    private final double[] error = new double[BOXES];
    private final double[] width = new double[BOXES];
    private final double[] dipError = new double[BOXES];
    private int found;
    private int covered;
    private double resistanceError;
    private int resistances;
    private int resistancesCovered;

    Tally(long seed, String grid, double noise) {
      name = String.format(Locale.ROOT, "seed %d, %s, noise %.3f", seed, grid, noise);
    }

    void add(CurveFeatures features, Built built) {
      double truth = built.tuningHz();
      if (features.tuningHz() instanceof Found<Estimate> tuning) {
        error[found] = Math.abs(tuning.value().value() / truth - 1);
        width[found] = tuning.value().relativeWidth();
        dipError[found] =
            features.dipBetweenPeaks().map(d -> d.frequencyHz().value() / truth - 1).orElse(0.0);
        covered += tuning.value().interval().contains(truth) ? 1 : 0;
        found++;
      }
      if (features.dcResistanceOhm() instanceof Found<Estimate> dc) {
        resistances++;
        double ohm = built.box().impedance(1e-4).getReal();
        resistanceError = Math.max(resistanceError, Math.abs(dc.value().value() / ohm - 1));
        resistancesCovered += dc.value().interval().contains(ohm) ? 1 : 0;
      }
    }

    void requireGood(double widestArm) {
      int drawn = BOXES;
      Arrays.sort(error, 0, found);
      Arrays.sort(width, 0, found);
      Arrays.sort(dipError, 0, found);
      String figures =
          String.format(
              Locale.ROOT,
              "%s: tuning found %d of %d, error median %.4f 95th %.4f worst %.4f, arm median %.4f"
                  + " 95th %.4f, covered %d; |Z| dip off by %.3f to %.3f; resistance covered %d of"
                  + " %d, worst %.3f",
              name,
              found,
              drawn,
              error[found / 2],
              error[found * 95 / 100],
              error[found - 1],
              width[found / 2],
              width[found * 95 / 100],
              covered,
              dipError[0],
              dipError[found - 1],
              resistancesCovered,
              resistances,
              resistanceError);
      System.out.println(figures);
      assertTrue(found >= 0.97 * drawn, figures);
      assertTrue(covered >= 0.95 * found, figures);
      assertTrue(width[found * 95 / 100] <= widestArm, figures);
      assertTrue(resistances >= 0.97 * drawn, figures);
      assertTrue(resistancesCovered >= 0.95 * resistances, figures);
    }
  }
}
