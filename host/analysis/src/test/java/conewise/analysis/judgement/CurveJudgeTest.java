package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.nodal.BoxFamily;
import conewise.analysis.nodal.BoxFamily.Bounds;
import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.PlannedDriver;
import conewise.analysis.plan.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class CurveJudgeTest {
  private static final double[] GRID = NodalBox.logarithmic(8, 400, 120);

  private static final BoxPlan PAIR =
      new BoxPlan(
          "pair",
          Kind.VENTED,
          List.of(
              new PlannedDriver("d1", List.of(4.0), Optional.of(30.0)),
              new PlannedDriver("d2", List.of(4.0), Optional.of(30.0))),
          new Wiring.Parallel(List.of(new Wiring.Coil("d1", 1), new Wiring.Coil("d2", 1))),
          false,
          0,
          BoxFamily.noLimits());

  private static Verdict judge(double[] grid, DoubleFunction<Complex> impedance) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : grid) {
      Complex z = impedance.apply(f);
      points.add(new ImpedancePoint(f, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    return new CurveJudge().judge(PAIR, Measurement.of(new ImpedanceCurve(points)));
  }

  private static Complex box(double f) {
    Complex low = resonance(f, 20, 5, 15);
    return low.add(resonance(f, 50, 5, 15)).add(2).add(new Complex(0, f * 0.002));
  }

  private static Complex resonance(double f, double at, double quality, double ohm) {
    return new Complex(ohm).divide(new Complex(1, quality * (f / at - at / f)));
  }

  @Test
  void aSoundPairPasses() {
    Verdict verdict = judge(GRID, CurveJudgeTest::box);
    assertEquals(Decision.PASS, verdict.decision(), verdict.headline());
  }

  @Test
  void anUncertainScaleWidensWhatIsInOhmByItselfAndLeavesPeaksAndTuning() {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : GRID) {
      Complex z = box(f);
      points.add(new ImpedancePoint(f, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    Check exact = dcResistance(new ImpedanceCurve(points));
    Check uncertain = dcResistance(new ImpedanceCurve(points, 0.04));
    Check.Reading sharp = ((Outcome.Found<Check.Reading>) exact.reading()).value();
    Check.Reading wide = ((Outcome.Found<Check.Reading>) uncertain.reading()).value();
    // JCGM 100, 5.1.6: relative parts add by their squares; 1.96 covers 95 % of a normal law.
    double expected = Math.hypot(sharp.interval().high() - sharp.value(), 1.96 * 0.04 * 2);
    assertEquals(sharp.value(), wide.value());
    assertEquals(wide.value() + expected, wide.interval().high(), 0.01);
    assertEquals(Decision.PASS, exact.decision());
  }

  @Test
  void aResistanceThatOnlyTheScaleLeavesOpenAsksForACalibration() {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : GRID) {
      Complex z = box(f).multiply(1.08);
      points.add(new ImpedancePoint(f, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    Check check = dcResistance(new ImpedanceCurve(points, 0.04));
    assertEquals(Decision.UNDECIDED, check.decision());
    assertTrue(check.nextStep().orElseThrow().startsWith("Calibrate the jig"), check::toString);
  }

  private static Check dcResistance(ImpedanceCurve curve) {
    return new CurveJudge().judge(PAIR, Measurement.of(curve)).checks().get(0);
  }

  @Test
  void aFindingThatSpoilsTheMeasurementBeatsEveryCheck() {
    BenchFinding hum =
        new BenchFinding(BenchFinding.Kind.HUM, true, "Hum is 3 V; 0.1 V is allowed.", "Move it.");
    Verdict verdict =
        new CurveJudge().judge(PAIR, new Measurement(Outcome.none("no sweep"), List.of(hum)));
    assertEquals(Decision.NOT_JUDGED, verdict.decision());
    assertTrue(verdict.headline().contains("3 V"), verdict.headline());
  }

  @Test
  void noCurveIsNotJudgedAndSaysWhy() {
    Verdict verdict =
        new CurveJudge()
            .judge(PAIR, new Measurement(Outcome.none("the jig fell silent"), List.of()));
    assertEquals(Decision.NOT_JUDGED, verdict.decision());
    assertTrue(verdict.headline().contains("the jig fell silent"), verdict.headline());
  }

  @Test
  void shortOpenAmplifierNegativeAndAbsurdCurvesAreNotJudged() {
    assertEquals(Decision.NOT_JUDGED, judge(GRID, f -> Complex.ZERO).decision());
    assertEquals(Decision.NOT_JUDGED, judge(GRID, f -> new Complex(0.03, 0.001)).decision());
    assertEquals(Decision.NOT_JUDGED, judge(GRID, f -> new Complex(1e5, -10)).decision());
    assertEquals(Decision.NOT_JUDGED, judge(GRID, f -> new Complex(1e300, 1e300)).decision());
    assertEquals(Decision.NOT_JUDGED, judge(GRID, f -> box(f).negate()).decision());
  }

  @Test
  void aCurveThatCoversTooLittleNamesTheMissingFrequencies() {
    Verdict narrow = judge(NodalBox.logarithmic(100, 200, 50), CurveJudgeTest::box);
    assertEquals(Decision.NOT_JUDGED, narrow.decision());
    assertTrue(narrow.headline().contains("13.5 to 100 Hz"), narrow.headline());
    Verdict two = judge(new double[] {10, 400}, CurveJudgeTest::box);
    assertEquals(Decision.NOT_JUDGED, two.decision());
    assertTrue(two.headline().contains("2 points"), two.headline());
  }

  @Test
  void aPointJustBelowTheNeededStartCoversItThoughTheNextOneIsFar() {
    // Half of the drivers' 30 Hz is needed; a comb with one line at 14.98 Hz and the next left
    // silent.
    double[] grid =
        java.util.stream.DoubleStream.concat(
                java.util.stream.DoubleStream.of(13.48),
                java.util.Arrays.stream(NodalBox.logarithmic(16, 400, 110)))
            .toArray();
    assertEquals(Decision.PASS, judge(grid, CurveJudgeTest::box).decision());
    double[] late = java.util.Arrays.copyOfRange(grid, 1, grid.length);
    assertEquals(Decision.NOT_JUDGED, judge(late, CurveJudgeTest::box).decision());
  }

  @Test
  void aResistorInPlaceOfABoxFailsForWantOfPeaks() {
    Verdict verdict = judge(GRID, f -> new Complex(2));
    assertEquals(Decision.FAIL, verdict.decision());
    assertTrue(verdict.headline().contains("seized"), verdict.headline());
  }

  @Test
  void onePeakAtTheDriversOwnResonanceSuspectsAReversedDriverFirst() {
    Verdict verdict = judge(GRID, f -> resonance(f, 30, 6, 20).add(2));
    assertEquals(Decision.FAIL, verdict.decision());
    assertTrue(verdict.headline().contains("wired backwards"), verdict.headline());
    assertTrue(verdict.action().orElseThrow().contains("Swap the leads"));
  }

  @Test
  void onePeakWellAboveItSuspectsABlockedVentFirst() {
    Verdict verdict = judge(GRID, f -> resonance(f, 50, 6, 20).add(2));
    assertEquals(Decision.FAIL, verdict.decision());
    assertTrue(verdict.headline().contains("vent is blocked"), verdict.headline());
  }

  @Test
  void driversInSeparateSpacesAreUndecidedWithThePopTest() {
    long seed = 77;
    Random r = new Random(seed);
    Built built = BoxFamily.draw(r, Kind.VENTED, true, Bounds.usual());
    Verdict verdict =
        new CurveJudge().judge(built.plan(), Measurement.of(built.box().curve(GRID, 0.002, r)));
    assertEquals(Decision.UNDECIDED, verdict.decision(), "seed " + seed);
    assertTrue(verdict.action().orElseThrow().contains("amplifier disconnected"));
  }

  @Test
  void anyFiniteCurveGivesAVerdictAndNeverAnException() {
    long seed = 20261;
    Random r = new Random(seed);
    for (int i = 0; i < 150; i++) {
      double size = Math.pow(10, r.nextInt(5) - 2);
      double shape = r.nextDouble();
      int count = 1 + r.nextInt(90);
      Verdict verdict =
          judge(
              NodalBox.logarithmic(5, 500, count + 1),
              f ->
                  box(f)
                      .multiply(shape)
                      .add(
                          new Complex(r.nextGaussian(), r.nextGaussian())
                              .multiply(size * (1 - shape))));
      assertTrue(!verdict.headline().isBlank(), "seed " + seed + " case " + i);
      assertTrue(!verdict.headline().contains("NaN"), "seed " + seed + " " + verdict.headline());
    }
  }
}
