package conewise.analysis.parameter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.State;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * A planned box against curves that the tests' own node equations give: 60 litres tuned to 34 Hz,
 * two drivers of fs 32 Hz in parallel.
 */
class BoxMeasurementTest {
  private static final long SEED = 4711;

  private static Optional<Stated> stated(double value, double spread) {
    return Optional.of(new Stated(value, spread));
  }

  private static DriverKind kind() {
    return new DriverKind(
        "ten",
        List.of(new Stated(7.2, 0.1)),
        stated(33, 0.12),
        stated(5.5, 0.3),
        stated(0.43, 0.15),
        stated(0.060, 0.15),
        stated(0.0015, 0.5),
        Optional.empty());
  }

  private static PlannedBox plan() {
    return new PlannedBox(
        "two tens",
        List.of(kind()),
        List.of(
            new PlannedBox.PlacedDriver("a", "ten", "main", Space.OUTSIDE),
            new PlannedBox.PlacedDriver("b", "ten", "main", Space.OUTSIDE)),
        List.of(new PlannedBox.PlannedSpace("main", stated(0.060, 0.05), false)),
        List.of(new PlannedBox.PlannedVent("vent", "main", Space.OUTSIDE, stated(36, 0.2))),
        List.of(),
        Circuit.parallel(Circuit.coil("a", 1), Circuit.coil("b", 1)),
        0,
        Demands.NONE);
  }

  private static ImpedanceCurve curve(boolean vented, double[] tones, double noise) {
    return VentedPair.truth(vented).curve(tones, noise, new Random(SEED));
  }

  private static ImpedanceCurve curve(boolean vented) {
    return curve(vented, NodalBox.comb(9.5, 400, 0.954), 0.004);
  }

  private static <T> T found(Outcome<T> outcome) {
    assertInstanceOf(Found.class, outcome, "seed " + SEED + ": " + outcome);
    return ((Found<T>) outcome).value();
  }

  private static void assertHolds(double truth, double most, Outcome<Estimate> outcome) {
    Estimate estimate = found(outcome);
    assertTrue(estimate.interval().contains(truth), truth + " against " + estimate);
    assertEquals(truth, estimate.value(), most * truth, "seed " + SEED);
  }

  @Test
  void theTuningOfASpaceComesInOneCall() {
    assertHolds(34, 0.01, BoxMeasurement.of(plan(), curve(true)).tuningHz("main"));
  }

  @Test
  void aSecondSweepWithTheVentClosedGivesTheThreeFrequenciesAndTellsMore() {
    FittedBox one = found(BoxMeasurement.of(plan(), curve(true)).fit());
    FittedBox both =
        found(
            BoxMeasurement.of(plan(), curve(true))
                .with(new State.VentClosed("vent"), curve(false))
                .fit());
    double alone = found(one.figures().spaces().get(0).complianceRatio()).relativeWidth();
    double together = found(both.figures().spaces().get(0).complianceRatio()).relativeWidth();
    assertTrue(together < alone, together + " of " + alone + ", seed " + SEED);
    assertInstanceOf(NoResult.class, one.tuning().get("main").threeFrequenciesHz());
    assertEquals(34, found(both.tuning().get("main").threeFrequenciesHz()), 0.012 * 34);
    assertTrue(
        both.advice().stream().noneMatch(advice -> advice.doThis().startsWith("close vent")),
        "the vent was closed already: " + both.advice());
    // Both coils side by side.
    assertHolds(3.5, 0.02, both.figures().dcResistanceOhm());
  }

  @Test
  void aDenseCurveToHighFrequenciesIsCutAndThinnedFirst() {
    double[] tones = NodalBox.comb(9.5, 5000, 0.954);
    FittedBox box = found(BoxMeasurement.of(plan(), curve(true, tones, 0.004)).fit());
    ImpedanceCurve fitted = box.fit().sweeps().get(0).curve();
    assertTrue(fitted.points().size() <= UsablePoints.MOST && fitted.highestHz() <= 420);
    assertHolds(34, 0.01, box.figures().spaces().get(0).tuningHz());
  }

  @Test
  void aCurveThatBeginsAboveWhatTheModelHoldsForIsRefused() {
    double[] tones = NodalBox.comb(600, 5000, 10);
    Outcome<FittedBox> outcome = BoxMeasurement.of(plan(), curve(true, tones, 0.004)).fit();
    NoResult<?> none = assertInstanceOf(NoResult.class, outcome);
    assertTrue(none.because().contains("it must begin below 420"), none.because());
  }

  @Test
  void anotherBoxThanPlannedIsRefusedByTheFit() {
    assertInstanceOf(NoResult.class, BoxMeasurement.of(plan(), curve(false)).fit());
  }

  @Test
  void partsThatThePlanDoesNotHaveAreNamedWithThoseThatItHas() {
    BoxMeasurement one = BoxMeasurement.of(plan(), curve(true));
    for (State state :
        List.of(
            new State.VentClosed("port"), new State.LeadsSwapped("c"), new State.Unplugged("c"))) {
      IllegalArgumentException refused =
          assertThrows(IllegalArgumentException.class, () -> one.with(state, curve(false)));
      assertTrue(refused.getMessage().contains("; it has "), refused.getMessage());
    }
    assertThrows(IllegalArgumentException.class, () -> one.tuningHz("attic"));
  }

  /**
   * The departures of a fitted curve lie within what the fit says noise and discrepancy explain,
   * for about as many points as two standard deviations hold (95 %).
   */
  @Test
  void departuresLieWithinWhatNoiseAndDiscrepancyExplain() {
    FittedBox box = found(BoxMeasurement.of(plan(), curve(true)).fit());
    ImpedanceCurve measured = box.fit().sweeps().get(0).curve();
    double[] hz = measured.points().stream().mapToDouble(p -> p.frequencyHz()).toArray();
    ImpedanceCurve fitted = box.fit().curve(0, hz);
    double[] explained = box.fit().explained(0);
    int within = 0;
    for (int i = 0; i < hz.length; i++) {
      double off =
          Math.log(
              measured.points().get(i).modulusOhm()
                  / (fitted.points().get(i).modulusOhm() * box.fit().scale()));
      assertTrue(explained[i] >= 0.004, "at least the noise: " + explained[i]);
      within += Math.abs(off) <= 2 * explained[i] ? 1 : 0;
    }
    assertTrue(within >= 0.9 * hz.length, "seed " + SEED + ": " + within + " of " + hz.length);
  }

  /** fB = fp sqrt(1 + Vap/V) (Small, J. Audio Eng. Soc. 22, 1974, from memory). */
  @Test
  void aPassiveRadiatorsSpaceHasATuningAndIsNotCalledClosed() {
    PlannedBox plan =
        new PlannedBox(
            "radiator",
            List.of(kind()),
            List.of(new PlannedBox.PlacedDriver("a", "ten", "main", Space.OUTSIDE)),
            List.of(new PlannedBox.PlannedSpace("main", stated(0.040, 0.05), false)),
            List.of(),
            List.of(
                new PlannedBox.PlannedRadiator(
                    "radiator",
                    "main",
                    Space.OUTSIDE,
                    stated(16, 0.15),
                    stated(6, 0.3),
                    stated(0.09, 0.15))),
            Circuit.coil("a", 1),
            0,
            Demands.NONE);
    Driver driver =
        Driver.of(32, 6, 0.45, 0.062, 1, 7).withInductance(Inductance.lossy(0.02, 0.7), 0);
    BoxModel truth =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.040)),
            List.of(
                new Mounted("a", driver, "main", Space.OUTSIDE),
                new PassiveRadiator("radiator", 17, 6, 0.085, "main", Space.OUTSIDE),
                new Leak("leak", 14, "main", Space.OUTSIDE)),
            Circuit.coil("a", 1));
    double[] tones = NodalBox.comb(9.5, 400, 0.954);
    ImpedanceCurve curve = PredictedCurve.of(truth, List.of(), Map.of(), tones);
    BoxFigures figures = found(BoxMeasurement.of(plan, curve).figures());
    BoxFigures.SpaceFigure space = figures.spaces().get(0);
    assertHolds(17 * Math.sqrt(1 + 0.085 / 0.040), 0.02, space.tuningHz());
    assertInstanceOf(NoResult.class, space.closedResonanceHz());
    assertEquals("radiator", figures.radiators().get(0).name());
  }
}
