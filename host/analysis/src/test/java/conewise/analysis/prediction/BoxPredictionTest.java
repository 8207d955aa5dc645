package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.Circuit;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * What each kind of box shows of its faults. The expected shapes are common practice of the trade
 * (from memory), the reason of each beside it.
 */
class BoxPredictionTest {
  private static final long SEED = 20261125;
  private static final int FEW = BoxPrediction.FEWEST_BOXES;

  private static final PlannedBox SHARED =
      Plans.shared(Plans.kind(3.6, 3.6), 2, Optional.of(Plans.tuned()), Plans.twoOfTwo());

  private static BoxPrediction predicted(PlannedBox plan) {
    return BoxPrediction.of(plan, Rates.USUAL, FEW, SEED, part -> {});
  }

  private static Prospect of(BoxPrediction prediction, String fault) {
    return prediction.prospects().stream()
        .filter(each -> each.faults().stream().anyMatch(f -> f.id().equals(fault)))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no prospect holds " + fault));
  }

  private static CurveShape shape(Prospect prospect) {
    return ((Found<CurveShape>) prospect.shape()).value();
  }

  private static List<String> ids(Prospect prospect) {
    return prospect.faults().stream().map(Fault::id).sorted().toList();
  }

  /** The cones push the air to one another: no pressure, no vent, no spring but their own. */
  @Test
  void oneOfTwoReversedOnASharedVentedSpaceShowsOnePeakAtTheDriversResonanceAndNoDip() {
    BoxPrediction prediction = predicted(SHARED);
    assertEquals(2, prediction.goodShape().peaks().size());
    Prospect reversed = of(prediction, "driver-reversed:a");
    assertEquals(List.of("driver-reversed:a", "driver-reversed:b"), ids(reversed));
    CurveShape shape = shape(reversed);
    assertEquals(1, shape.peaks().size(), shape.toString());
    assertEquals(Plans.FS_HZ, shape.peaks().get(0).frequencyHz(), 0.005 * Plans.FS_HZ);
    assertTrue(
        shape.dips().stream()
            .allMatch(dip -> dip.frequencyHz() > shape.peaks().get(0).frequencyHz()),
        "a dip below the peak: " + shape);
    assertEquals(prediction.goodShape().dcOhm(), shape.dcOhm(), 1e-9);
    assertEquals(Telling.Kind.SURELY, reversed.telling().kind(), "seed " + SEED);
  }

  /** No air is shared, and a motor's impedance has no sign. */
  @Test
  void oneOfTwoReversedOnSpacesOfTheirOwnIsNeverShownAndThePopTestIsNamed() {
    PlannedBox plan = Plans.separate(Plans.kind(3.6, 3.6), Plans.twoOfTwo());
    Prospect reversed = of(predicted(plan), "driver-reversed:b");
    assertEquals(Telling.Kind.NEVER, reversed.telling().kind());
    assertTrue(reversed.isAsGood());
    Prospect.Unseen unseen =
        reversed.unseen().stream()
            .filter(each -> each.fault().id().equals("driver-reversed:b"))
            .findFirst()
            .orElseThrow();
    assertEquals(1, unseen.tests().size(), unseen.tests().toString());
    assertTrue(unseen.tests().get(0).startsWith("Pop test"), unseen.tests().toString());
    assertTrue(
        unseen.tests().get(0).contains("driver b moves in where it should move out"),
        unseen.tests().toString());
  }

  @Test
  void everyDriverReversedIsNeverShown() {
    Prospect reversed = of(predicted(SHARED), "box-reversed:all");
    assertEquals(Telling.Kind.NEVER, reversed.telling().kind());
    assertTrue(reversed.isAsGood());
  }

  /** Forces cancel: the cone rests, and the common part of the inductance goes as well. */
  @Test
  void oneCoilOfALoneDriverReversedShowsNoPeak() {
    PlannedBox plan =
        Plans.shared(
            Plans.kind(3.6, 3.6),
            1,
            Optional.empty(),
            Circuit.series(Circuit.coil("a", 1), Circuit.coil("a", 2)));
    BoxPrediction prediction = predicted(plan);
    Prospect reversed = of(prediction, "coil-reversed:a.2");
    assertEquals(List.of(), shape(reversed).peaks());
    assertEquals(List.of("coil-reversed:a.1", "coil-reversed:a.2"), ids(reversed));
    assertEquals(Telling.Kind.NEVER, of(prediction, "driver-reversed:a").telling().kind());
  }

  /** Like coils in another join: the level alone. Two by two in series and parallel: 1/4 of R. */
  @Test
  void allInSeriesIsFourTimesAGoodCurveWhereFourLikeCoilsAreTwoByTwo() {
    PlannedBox plan =
        Plans.shared(
            Plans.kind(6.4),
            4,
            Optional.of(Plans.tuned()),
            Circuit.parallel(
                Circuit.series(Circuit.coil("a", 1), Circuit.coil("b", 1)),
                Circuit.series(Circuit.coil("c", 1), Circuit.coil("d", 1))));
    Prospect slip = of(predicted(plan), "wired-otherwise:all-series");
    // The leads of 0.05 ohm do not go with it.
    assertEquals(4, slip.timesGood().orElseThrow(), 0.03);
  }

  @Test
  void aCoilThatOpensALoneStringLeavesNoCurveAndSaysWhy() {
    PlannedBox plan =
        Plans.shared(
            Plans.kind(3.6),
            2,
            Optional.empty(),
            Circuit.series(Circuit.coil("a", 1), Circuit.coil("b", 1)));
    Prospect open = of(predicted(plan), "coil-open:a.1");
    assertEquals(Telling.Kind.OPEN, open.telling().kind());
    assertTrue(open.shape() instanceof NoResult<CurveShape>, open.shape().toString());
    assertEquals(List.of("coil-open:a.1", "coil-open:b.1"), ids(open));
  }

  @Test
  void everyFaultStandsInJustOneProspectAndNoTwoThatBothHaveCurvesAreAlike() {
    BoxPrediction prediction = predicted(SHARED);
    List<String> all =
        prediction.prospects().stream()
            .flatMap(each -> each.faults().stream())
            .map(Fault::id)
            .toList();
    assertEquals(all.size(), all.stream().distinct().count(), all.toString());
    List<ImpedanceCurve> curves =
        prediction.prospects().stream()
            .filter(each -> !each.isAsGood())
            .map(each -> ((Found<ImpedanceCurve>) each.curve()).value())
            .toList();
    for (int i = 0; i < curves.size(); i++) {
      for (int k = 0; k < i; k++) {
        assertNotEquals(curves.get(k), curves.get(i));
      }
    }
  }

  /** What a tolerance allows, no curve can hold against the box. */
  @Test
  void aWrongTuningIsToldLessOftenWhereThePlanAllowsMore() {
    List<Integer> told = new ArrayList<>();
    for (double spread : new double[] {0.01, 0.3}) {
      PlannedBox plan =
          Plans.shared(
              Plans.kind(3.6, 3.6), 2, Optional.of(new Stated(34, spread)), Plans.twoOfTwo());
      BoxPrediction prediction = BoxPrediction.of(plan, Rates.USUAL, 16, SEED, part -> {});
      told.add(of(prediction, "vent-too-long:port").telling().told());
    }
    assertTrue(told.get(0) >= told.get(1) + 4, told + " of 16, seed " + SEED);
  }

  @Test
  void theSameSeedGivesTheSamePredictionAndProgressRises() {
    List<Double> progress = new ArrayList<>();
    BoxPrediction first = BoxPrediction.of(SHARED, Rates.USUAL, FEW, SEED, progress::add);
    List<Telling> again = predicted(SHARED).prospects().stream().map(Prospect::telling).toList();
    assertEquals(again, first.prospects().stream().map(Prospect::telling).toList());
    for (int i = 1; i < progress.size(); i++) {
      assertTrue(progress.get(i) > progress.get(i - 1) && progress.get(i) <= 1);
    }
    assertEquals(first.prospects().size(), progress.size());
  }

  @Test
  void aNumberOfBoxesOutOfRangeIsRefusedWithTheLimits() {
    for (int boxes : new int[] {-1, 3, 1001}) {
      String message =
          assertThrows(
                  IllegalArgumentException.class,
                  () -> BoxPrediction.of(SHARED, Rates.USUAL, boxes, SEED, part -> {}))
              .getMessage();
      assertTrue(message.contains(boxes + " boxes") && message.contains("4 to 1000"), message);
    }
  }

  @Test
  void everyCurveRunsFromDirectCurrentToTheEndOfASweepInFiniteNumbers() {
    for (Prospect each : predicted(SHARED).prospects()) {
      ImpedanceCurve curve = ((Found<ImpedanceCurve>) each.curve()).value();
      assertEquals(0, curve.lowestHz());
      assertEquals(BoxPrediction.HIGHEST_HZ, curve.highestHz(), 1e-9);
      assertTrue(curve.points().stream().allMatch(p -> Double.isFinite(p.modulusOhm())));
      assertTrue(
          curve.points().stream().mapToDouble(ImpedancePoint::resistanceOhm).min().orElse(-1) > 0);
    }
  }

  /** The same drawn boxes need less evidence where the fault is no rarity. */
  @Test
  void aFaultThatAShopOftenMeetsIsToldSooner() {
    Rates often = new Rates(Map.of(FaultKind.VOLUME_TOO_LARGE, 0.4));
    int boxes = 40;
    Telling seldom =
        of(BoxPrediction.of(SHARED, Rates.USUAL, boxes, SEED, part -> {}), "volume-too-large:main")
            .telling();
    Telling common =
        of(BoxPrediction.of(SHARED, often, boxes, SEED, part -> {}), "volume-too-large:main")
            .telling();
    assertEquals(seldom.nearestSigmas(), common.nearestSigmas());
    assertTrue(seldom.told() < common.told(), seldom + " " + common);
  }
}
