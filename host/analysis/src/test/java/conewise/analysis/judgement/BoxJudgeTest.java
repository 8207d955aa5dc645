package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
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
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import java.util.function.UnaryOperator;
import java.util.stream.DoubleStream;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class BoxJudgeTest {
  private static final double[] GRID = NodalBox.logarithmic(8, 400, 120);
  private static final double[] WITH_DC = with(0, GRID);
  private static final Optional<ImpedanceUncertainty> KNOWN =
      Optional.of(ImpedanceUncertainty.circular(0.02));

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

  private static final Network SOUND = Network.of(PAIR.model());

  private static ImpedanceCurve curve(double[] grid, DoubleFunction<Complex> impedance) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : grid) {
      Complex z = impedance.apply(f);
      points.add(new ImpedancePoint(f, z.getReal(), f == 0 ? 0 : z.getImaginary(), KNOWN));
    }
    return new ImpedanceCurve(points);
  }

  private static Verdict judge(double[] grid, DoubleFunction<Complex> impedance) {
    return new BoxJudge().judge(PAIR, Measurement.of(curve(grid, impedance)));
  }

  private static Complex box(double f) {
    return SOUND.impedance(f);
  }

  private static DoubleFunction<Complex> of(UnaryOperator<BoxModel> change) {
    Network network = Network.of(change.apply(PAIR.model()));
    return network::impedance;
  }

  @Test
  void aSoundPairPasses() {
    Verdict verdict = judge(WITH_DC, BoxJudgeTest::box);
    assertEquals(Decision.PASS, verdict.decision(), verdict.headline());
  }

  @Test
  void anUncertainScaleWidensWhatIsInOhmByItself() {
    ImpedanceCurve exact = curve(WITH_DC, BoxJudgeTest::box);
    Check.Reading sharp = reading(dcResistance(exact));
    Check.Reading wide = reading(dcResistance(new ImpedanceCurve(exact.points(), 0.04)));
    // JCGM 100, 5.1.6: relative parts add by their squares; 1.96 covers 95 % of a normal law.
    double expected = Math.hypot(sharp.interval().high() - sharp.value(), 1.96 * 0.04 * 2);
    assertEquals(2, sharp.value(), 1e-9);
    assertEquals(sharp.value(), wide.value());
    assertEquals(wide.value() + expected, wide.interval().high(), 1e-9);
  }

  @Test
  void aResistanceThatOnlyTheScaleLeavesOpenAsksForACalibration() {
    ImpedanceCurve high = curve(WITH_DC, f -> box(f).multiply(1.08));
    Check check = dcResistance(new ImpedanceCurve(high.points(), 0.04));
    assertEquals(Decision.UNDECIDED, check.decision());
    assertTrue(check.nextStep().orElseThrow().startsWith("Calibrate the jig"), check::toString);
  }

  private static Check.Reading reading(Check check) {
    return ((Outcome.Found<Check.Reading>) check.reading()).value();
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
    assertTrue(narrow.headline().contains("15 to 100 Hz"), narrow.headline());
    Verdict two = judge(new double[] {10, 400}, BoxJudgeTest::box);
    assertEquals(Decision.NOT_JUDGED, two.decision());
    assertTrue(two.headline().contains("2 points"), two.headline());
  }

  @Test
  void aPointJustBelowTheNeededStartCoversItThoughTheNextOneIsFar() {
    // A box of which nothing is known needs points from 15 Hz.
    double[] grid = with(14.9, NodalBox.logarithmic(18, 400, 110));
    assertNotEquals(Decision.NOT_JUDGED, judge(grid, BoxJudgeTest::box).decision());
    double[] late = Arrays.copyOfRange(grid, 1, grid.length);
    assertEquals(Decision.NOT_JUDGED, judge(late, BoxJudgeTest::box).decision());
  }

  private static double[] with(double first, double[] rest) {
    return DoubleStream.concat(DoubleStream.of(first), Arrays.stream(rest)).toArray();
  }

  @Test
  void aResistorInPlaceOfABoxFails() {
    assertEquals(Decision.FAIL, judge(WITH_DC, f -> new Complex(2)).decision());
  }

  @Test
  void aReversedDriverIsNamedAsTheSetOfBothAndAsksForTheTestThatTells() {
    Verdict verdict = judge(WITH_DC, of(box -> box.withCircuit(box.circuit().withReversed("d1"))));
    assertEquals(Decision.FAIL, verdict.decision());
    assertEquals(
        List.of("driver d1 is wired backwards", "driver d2 is wired backwards"),
        verdict.suspects().get(0).faults());
    assertTrue(verdict.action().orElseThrow().startsWith("Pop test"), verdict::toString);
  }

  @Test
  void thePopTestNamesTheOneThatIsReversed() {
    ImpedanceCurve curve =
        curve(WITH_DC, of(box -> box.withCircuit(box.circuit().withReversed("d1"))));
    BoxJudge.Evidence seen =
        new BoxJudge.Evidence(
            List.of(),
            List.of(new Observation.Pop("d1", Motion.IN), new Observation.Pop("d2", Motion.OUT)));
    Verdict verdict = new BoxJudge().judge(PAIR, Measurement.of(curve), seen);
    assertEquals("Wrong: driver d1 is wired backwards.", verdict.headline());
    assertEquals("Swap the leads of driver d1 and check again.", verdict.action().orElseThrow());
  }

  /** With one of two drivers off, a box whose other driver is dead could carry no current. */
  @Test
  void aSweepWithADriverUnpluggedIsWeighedBesideFaultsThatWouldCarryNoCurrentThen() {
    Verdict verdict =
        judgeWith(new State.Unplugged("d2"), BoxJudgeTest::box, WITH_DC, BoxJudgeTest::unplugged);
    assertEquals(Decision.PASS, verdict.decision(), verdict.headline());
  }

  @Test
  void aSecondSweepThatNoBoxGivesIsNotJudged() {
    Verdict verdict =
        judgeWith(new State.VentClosed("vent"), BoxJudgeTest::box, WITH_DC, f -> new Complex(0.01));
    assertEquals(Decision.NOT_JUDGED, verdict.decision());
    assertTrue(verdict.headline().contains("with vent vent closed"), verdict.headline());
  }

  @Test
  void aSecondSweepInAStateThatCarriesNoCurrentIsNotJudged() {
    PlannedBox series = inSeries();
    Network sound = Network.of(series.model());
    BoxJudge.Evidence more =
        new BoxJudge.Evidence(
            List.of(new SweptState(new State.Unplugged("d1"), curve(WITH_DC, sound::impedance))),
            List.of());
    Verdict verdict =
        new BoxJudge().judge(series, Measurement.of(curve(WITH_DC, sound::impedance)), more);
    assertEquals(Decision.NOT_JUDGED, verdict.decision());
    assertTrue(verdict.headline().contains("no current"), verdict.headline());
  }

  private static Complex unplugged(double f) {
    return of(box ->
            box.withCircuit(
                box.circuit().withCoils(c -> c.driver().equals("d2") ? new Circuit.Gap() : c)))
        .apply(f);
  }

  private static PlannedBox inSeries() {
    return new PlannedBox(
        PAIR.name(),
        PAIR.kinds(),
        PAIR.drivers(),
        PAIR.spaces(),
        PAIR.vents(),
        PAIR.radiators(),
        Circuit.series(Circuit.coil("d1", 1), Circuit.coil("d2", 1)),
        0,
        Demands.NONE);
  }

  private static Verdict judgeWith(
      State state, DoubleFunction<Complex> first, double[] grid, DoubleFunction<Complex> second) {
    BoxJudge.Evidence more =
        new BoxJudge.Evidence(List.of(new SweptState(state, curve(grid, second))), List.of());
    return new BoxJudge().judge(PAIR, Measurement.of(curve(grid, first)), more);
  }

  /** A coil that is no power of frequency leaves much over at its upper end; the box is sound. */
  @Test
  void aCoilOfAnotherFormThanTheModelsIsNoReasonToDoubt() {
    DoubleFunction<Complex> section =
        f -> {
          Complex coil = new Complex(0, 2 * Math.PI * f * 1.2e-3);
          Complex loss = new Complex(1.5);
          return coil.multiply(loss).divide(coil.add(loss)).add(new Complex(0, f * 0.0012));
        };
    Network bare = Network.of(withoutCoil());
    Verdict verdict = judge(WITH_DC, f -> bare.impedance(f).add(section.apply(f)));
    assertEquals(Decision.PASS, verdict.decision(), verdict.headline());
  }

  private static BoxModel withoutCoil() {
    BoxModel box = PAIR.model();
    for (String driver : List.of("d1", "d2")) {
      box = box.withDriver(driver, each -> each.withInductance(Inductance.NONE, 0));
    }
    return box;
  }

  /** The curve is a good box's; what was seen is not. */
  @Test
  void aLoneDriverSeenToMoveInIsNamedThoughItsCurveIsGood() {
    PlannedBox alone = alone();
    Network sound = Network.of(alone.model());
    BoxJudge.Evidence seen =
        new BoxJudge.Evidence(List.of(), List.of(new Observation.Pop("d1", Motion.IN)));
    Verdict verdict =
        new BoxJudge().judge(alone, Measurement.of(curve(WITH_DC, sound::impedance)), seen);
    assertEquals("Wrong: driver d1 is wired backwards.", verdict.headline());
    assertEquals("Swap the leads of driver d1 and check again.", verdict.action().orElseThrow());
  }

  /**
   * The microphone may be what is the wrong way round, until something has shown that it is not.
   */
  @Test
  void aLoneDriverHeardToMoveInIsUndecidedUntilTheMicrophoneIsProven() {
    PlannedBox alone = alone();
    Measurement sound = Measurement.of(curve(WITH_DC, Network.of(alone.model())::impedance));
    for (boolean proven : List.of(false, true)) {
      Observation heard = new Observation.HeardPops(Map.of("d1", Motion.IN), proven);
      Verdict verdict =
          new BoxJudge().judge(alone, sound, new BoxJudge.Evidence(List.of(), List.of(heard)));
      assertEquals(proven ? Decision.FAIL : Decision.UNDECIDED, verdict.decision());
    }
  }

  /** Against one another two cones are heard rightly by any microphone. */
  @Test
  void anUnprovenMicrophoneStillShowsThatDriversOfSeparateSpacesDisagree() {
    Built built = BoxFamily.draw(new Random(77), Kind.SEALED, true, Bounds.usual());
    ImpedanceCurve sound = curve(WITH_DC, Network.of(built.plan().model())::impedance);
    Observation heard = new Observation.HeardPops(Map.of("d1", Motion.OUT, "d2", Motion.IN), false);
    Verdict verdict =
        new BoxJudge()
            .judge(
                built.plan(),
                Measurement.of(sound),
                new BoxJudge.Evidence(List.of(), List.of(heard)));
    assertEquals(Decision.FAIL, verdict.decision());
    assertTrue(verdict.suspects().get(0).faults().contains("driver d2 is wired backwards"));
  }

  private static PlannedBox alone() {
    return new PlannedBox(
        "alone",
        PAIR.kinds(),
        PAIR.drivers().subList(0, 1),
        PAIR.spaces(),
        PAIR.vents(),
        List.of(),
        Circuit.coil("d1", 1),
        0,
        Demands.NONE);
  }

  @Test
  void aDriverOfASpaceOfItsOwnSeenToMoveInIsNamed() {
    long seed = 77;
    Random r = new Random(seed);
    Built built = BoxFamily.draw(r, Kind.SEALED, true, Bounds.usual());
    Network sound = Network.of(built.plan().model());
    BoxJudge.Evidence seen =
        new BoxJudge.Evidence(
            List.of(),
            List.of(new Observation.Pop("d1", Motion.OUT), new Observation.Pop("d2", Motion.IN)));
    Verdict verdict =
        new BoxJudge().judge(built.plan(), Measurement.of(curve(WITH_DC, sound::impedance)), seen);
    assertEquals("Wrong: driver d2 is wired backwards.", verdict.headline(), "seed " + seed);
  }

  @Test
  void aClosedVentIsNamed() {
    Verdict verdict = judge(WITH_DC, of(box -> box.without("vent")));
    assertEquals("Wrong: the vent is blocked.", verdict.headline());
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
