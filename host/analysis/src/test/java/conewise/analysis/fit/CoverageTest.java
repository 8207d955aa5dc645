package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.CoverageStudy.Tally;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * How often 95 % intervals hold the truth, at the noise of the jig's quick sweep. A tenth of the
 * full study runs here; -Dcoverage.sweeps=2000 runs it whole.
 */
class CoverageTest {
  private static final int SWEEPS = Integer.getInteger("coverage.sweeps", 200);

  /** Relative standard uncertainty of a point of the virtual jig's quick sweep. */
  private static final double JIG_NOISE = 0.008;

  /** The same of its DC resistance. */
  private static final double JIG_DC_NOISE = 0.0054;

  private static final double MOST_LOST = 0.03;
  private static final double NOMINAL = 0.95;
  private static final double LEAST_IN_OTHER_WORLDS = 0.93;
  private static final double LEAST_IN_HELD_OUT_WORLDS = 0.9;

  /** A loss that goes with a power of frequency is taken for the motor's (docs/model.md). */
  private static final double LEAST_OF_QTC_HELD_OUT = 0.8;

  private static final double TUNING_RMS = 0.003;

  /** Three standard deviations of a share that is counted in so many trials. */
  private static double chance(double share, int trials) {
    return 3 * Math.sqrt(share * (1 - share) / trials);
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void intervalsHoldTheTruthAsOftenAsTheySayWhereTheModelIsRight(BoxKind kind) {
    CoverageStudy study = run(kind, TrueWorld.AS_MODELLED, Discrepancy.NONE, 9001);
    for (Map.Entry<String, Tally> each : study.tallies.entrySet()) {
      Tally tally = each.getValue();
      String what = each.getKey() + " in " + study.figuresText();
      assertTrue(tally.found >= 0.9 * tally.tried, what);
      double chance = chance(NOMINAL, tally.found);
      assertTrue(tally.coverage() >= NOMINAL - 0.02 - chance / 2, what);
      assertTrue(tally.coverage() <= NOMINAL + 0.02 + chance / 2, what);
      if (each.getKey().equals("tuning")) {
        assertTrue(tally.rms() <= TUNING_RMS, what);
      }
    }
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void intervalsHoldTheTruthWhereSuspensionCoilAndConverterAreOthers(BoxKind kind) {
    assertHeld(kind, TrueWorld.ALL_OF_THEM, 9002, figure -> LEAST_IN_OTHER_WORLDS);
  }

  @ParameterizedTest
  @EnumSource(BoxKind.class)
  void intervalsHoldTheTruthInAWorldThatTheDiscrepancyWasNotChosenBy(BoxKind kind) {
    assertHeld(
        kind,
        TrueWorld.ALL_OF_OTHER_FORMS,
        9003,
        figure -> figure.equals("Qtc") ? LEAST_OF_QTC_HELD_OUT : LEAST_IN_HELD_OUT_WORLDS);
  }

  private static void assertHeld(
      BoxKind kind, TrueWorld world, long seed, ToDoubleFunction<String> leastOf) {
    CoverageStudy study = run(kind, world, Discrepancy.USUAL, seed);
    for (Map.Entry<String, Tally> each : study.tallies.entrySet()) {
      Tally tally = each.getValue();
      String what = each.getKey() + " in " + study.figuresText();
      assertTrue(tally.found >= 0.9 * tally.tried, what);
      double least = leastOf.applyAsDouble(each.getKey());
      assertTrue(tally.coverage() >= least - chance(least, tally.found) / 2, what);
    }
  }

  private static CoverageStudy run(BoxKind kind, TrueWorld world, Discrepancy least, long seed) {
    CoverageStudy study = new CoverageStudy(kind, world, least, JIG_NOISE, JIG_DC_NOISE);
    study.run(SWEEPS, seed);
    assertTrue(study.lost <= MOST_LOST * SWEEPS, study.figuresText());
    System.out.println("seed " + seed + ", " + study.figuresText());
    return study;
  }
}
