package conewise.analysis.parameter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.Bootstrap;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.ProfileInterval;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.UsualUnknowns;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Two like drivers in a vented box whose truth is solved by the tests' own node equations: 60
 * litres, 34 Hz, fs 32 Hz, and a plan that is 8 % off in each driver.
 */
class VentedBoxTest {
  private static final long SEED = 77;
  private static final double NOISE = 0.004;
  private static final double QUICK_NOISE = 0.01;
  private static final double TUNING = VentedPair.TUNING;
  private static final double VOLUME = VentedPair.VOLUME;

  private static BoxModel plan() {
    Driver driver =
        Driver.of(34.5, 5, 0.42, VentedPair.vasM3() * 0.93, 1, 7.3)
            .withInductance(Inductance.lossy(0.025, 0.68), 0);
    return UsualUnknowns.withUsualLosses(
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", VOLUME)),
            List.of(
                new Mounted("a", driver, "main", Space.OUTSIDE),
                new Mounted("b", driver, "main", Space.OUTSIDE),
                new Vent("vent", 38, 50, "main", Space.OUTSIDE),
                new Leak("leak", 10, "main", Space.OUTSIDE)),
            Circuit.parallel(Circuit.coil("a", 1), Circuit.coil("b", 1))));
  }

  private static ImpedanceCurve curve(boolean vented) {
    return curve(vented, NOISE);
  }

  private static ImpedanceCurve curve(boolean vented, double noise) {
    double[] tones = NodalBox.comb(9.5, 400, 0.954);
    return VentedPair.truth(vented).curve(tones, noise, new Random(SEED));
  }

  private static BoxFit fit(Sweep... sweeps) {
    Outcome<BoxFit> outcome = BoxFit.of(List.of(sweeps), UsualUnknowns.of(plan()));
    assertTrue(outcome instanceof Found<BoxFit>, "seed " + SEED + ": " + outcome);
    return ((Found<BoxFit>) outcome).value();
  }

  private static Estimate told(Outcome<Estimate> outcome) {
    assertTrue(outcome instanceof Found<Estimate>, "seed " + SEED + ": " + outcome);
    return ((Found<Estimate>) outcome).value();
  }

  private static void assertHolds(double expected, double relative, Outcome<Estimate> outcome) {
    Estimate estimate = told(outcome);
    assertTrue(
        estimate.interval().contains(expected),
        "seed " + SEED + ": " + expected + " against " + estimate);
    assertEquals(expected, estimate.value(), relative * expected, "seed " + SEED);
  }

  @Test
  void figuresOfDriversAndBoxComeBackFromOneSweep() {
    BoxFigures figures = BoxFigures.of(fit(new Sweep(plan(), curve(true))), plan());
    assertEquals(List.of("a", "b"), figures.drivers().get(0).names());
    assertHolds(7, 0.02, figures.drivers().get(0).dcResistanceOhm());
    assertHolds(32, 0.02, figures.drivers().get(0).resonanceHz());
    assertHolds(1 / (1 / 6.0 + 1 / 0.45), 0.04, figures.drivers().get(0).totalQ());
    BoxFigures.SpaceFigure space = figures.spaces().get(0);
    assertHolds(TUNING, 0.01, space.tuningHz());
    assertHolds(2 * VentedPair.vasM3() / VOLUME, 0.05, space.complianceRatio());
    double boxQ = 1 / (1 / 12.0 + 1 / 60.0);
    double total = boxQ + TUNING / 32 / (2 * VentedPair.vasM3() / VOLUME) / 6;
    assertHolds(total, 0.1, space.totalLossQ());
  }

  @Test
  void theFittedTuningIsNearerThanTheDipAndTheThreeFrequencies() {
    BoxFigures figures = BoxFigures.of(fit(new Sweep(plan(), curve(true))), plan());
    TuningReadings readings =
        TuningReadings.of(
            figures.spaces().get(0).tuningHz(), curve(true), Optional.of(curve(false)));
    double fitted = told(readings.fittedHz()).value();
    double dip = told(readings.dipHz()).value();
    double phase = ((Found<Double>) readings.phaseZeroHz()).value();
    double three = ((Found<Double>) readings.threeFrequenciesHz()).value();
    assertTrue(Math.abs(fitted - TUNING) < 0.003 * TUNING, "fitted " + fitted);
    assertTrue(dip < 0.995 * TUNING, "the coil pulls the dip down: " + dip);
    assertTrue(phase < 0.995 * TUNING, "and the zero of the phase: " + phase);
    assertEquals(TUNING, three, 0.012 * TUNING, "three frequencies");
    assertTrue(Math.abs(fitted - TUNING) < Math.abs(dip - TUNING));
  }

  @Test
  void closingTheVentIsAdvisedForTheLossesAndNarrowsThem() {
    Sweep open = new Sweep(plan(), curve(true, QUICK_NOISE));
    BoxFit one = fit(open);
    assertTrue(
        one.openSets().stream().anyMatch(set -> String.join(" ", set).contains(" Q")),
        "one open sweep leaves losses open: " + one.openSets());
    List<SecondSweeps.Advice> advice = SecondSweeps.of(one, plan());
    assertTrue(
        advice.stream().anyMatch(each -> each.doThis().contains("close vent")),
        "advice: " + advice);
    BoxFit both = fit(open, new Sweep(plan().without("vent"), curve(false, QUICK_NOISE)));
    assertTrue(both.rank() > one.rank(), both.openSets() + " of " + one.openSets());
  }

  @Test
  void profileAndBootstrapAgreeWithTheLinearInterval() {
    BoxFit fit = fit(new Sweep(plan(), curve(true)));
    Quantity tuning = new Quantity("vent", Kind.TUNING);
    double linear = told(fit.estimate(tuning)).relativeWidth();
    double profile = told(ProfileInterval.of(fit, tuning)).relativeWidth();
    double bootstrap =
        told(Bootstrap.interval(fit, v -> v.of(tuning), 120, new Random(SEED))).relativeWidth();
    assertEquals(1, profile / linear, 0.2, "profile " + profile + ", linear " + linear);
    assertEquals(1, bootstrap / linear, 0.35, "bootstrap " + bootstrap + ", linear " + linear);
  }
}
