package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.BoxFamily;
import conewise.analysis.nodal.BoxFamily.Bounds;
import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.BoxFamily.Kind;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class BoxJudgeTest {
  private static final double[] GRID = NodalBox.logarithmic(8, 400, 120);

  private static final PlannedBox PAIR =
      new PlannedBox(
          "pair",
          List.of(
              new DriverKind(
                  "kind",
                  List.of(new Stated(4, 0.05)),
                  Optional.of(new Stated(30, 0.12)),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.empty())),
          List.of(
              new PlacedDriver("d1", "kind", "main", Space.OUTSIDE),
              new PlacedDriver("d2", "kind", "main", Space.OUTSIDE)),
          List.of(new PlannedSpace("main", Optional.empty(), false)),
          List.of(new PlannedVent("vent", "main", Space.OUTSIDE, Optional.empty())),
          List.of(),
          Circuit.parallel(Circuit.coil("d1", 1), Circuit.coil("d2", 1)),
          0,
          Demands.NONE);

  private static Verdict judge(double[] grid, DoubleFunction<Complex> impedance) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : grid) {
      Complex z = impedance.apply(f);
      points.add(new ImpedancePoint(f, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    return new BoxJudge().judge(PAIR, Measurement.of(new ImpedanceCurve(points)));
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
    Verdict verdict = judge(GRID, BoxJudgeTest::box);
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
    return new BoxJudge()
        .judge(PAIR, Measurement.of(curve)).checks().stream()
            .filter(check -> check.id().equals("dc-resistance"))
            .findFirst()
            .orElseThrow();
  }

  @Test
  void aFindingThatSpoilsTheMeasurementBeatsEveryCheck() {
    BenchFinding hum =
        new BenchFinding(BenchFinding.Kind.HUM, true, "Hum is 3 V; 0.1 V is allowed.", "Move it.");
    Verdict verdict =
        new BoxJudge().judge(PAIR, new Measurement(Outcome.none("no sweep"), List.of(hum)));
    assertEquals(Decision.NOT_JUDGED, verdict.decision());
    assertTrue(verdict.headline().contains("3 V"), verdict.headline());
  }

  @Test
  void noCurveIsNotJudgedAndSaysWhy() {
    Verdict verdict =
        new BoxJudge().judge(PAIR, new Measurement(Outcome.none("the jig fell silent"), List.of()));
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
    Verdict narrow = judge(NodalBox.logarithmic(100, 200, 50), BoxJudgeTest::box);
    assertEquals(Decision.NOT_JUDGED, narrow.decision());
    assertTrue(narrow.headline().contains("13.5 to 100 Hz"), narrow.headline());
    Verdict two = judge(new double[] {10, 400}, BoxJudgeTest::box);
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
    assertEquals(Decision.PASS, judge(grid, BoxJudgeTest::box).decision());
    double[] late = java.util.Arrays.copyOfRange(grid, 1, grid.length);
    assertEquals(Decision.NOT_JUDGED, judge(late, BoxJudgeTest::box).decision());
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
        new BoxJudge().judge(built.plan(), Measurement.of(built.box().curve(GRID, 0.002, r)));
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
