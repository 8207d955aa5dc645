package conewise.analysis.learning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.learning.FigureKind.What;
import conewise.analysis.learning.LearnedFigure.Reading;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LearnedFigureTest {
  private static final FigureKind TUNING = new FigureKind("port", What.VENT_TUNING);

  private static LearnedFigure learned(double uncertainty, double... hertz) {
    return LearnedFigure.of(
        TUNING, Arrays.stream(hertz).mapToObj(hz -> new Reading(hz, uncertainty)).toList());
  }

  /** By hand: the logarithms of 33, 34 and 35 about their mean. */
  @Test
  void meanAndSpreadAreThoseOfTheLogarithms() {
    LearnedFigure figure = learned(0, 33, 34, 35);
    double mean = (Math.log(33) + Math.log(34) + Math.log(35)) / 3;
    assertEquals(Math.exp(mean), figure.value(), 1e-12);
    double squares = 0;
    for (double hz : new double[] {33, 34, 35}) {
      squares += Math.pow(Math.log(hz) - mean, 2);
    }
    assertEquals(Math.sqrt(squares / 2), figure.spread(), 1e-12);
    assertEquals("tuning of port", figure.words());
  }

  @Test
  void theUncertaintyOfMeasuringIsTakenOffTheSpreadOfTheBoxes() {
    LearnedFigure figure = new LearnedFigure("x", "", 10, 1, 0.05, 0.03);
    assertEquals(0.04, figure.ownSpread().orElseThrow(), 1e-12);
    assertTrue(new LearnedFigure("x", "", 10, 1, 0.03, 0.03).ownSpread().isEmpty());
    assertTrue(new LearnedFigure("x", "", 10, 1, 0.02, 0.03).ownSpread().isEmpty());
  }

  /** k of 10 boxes is 4.44 (see the test of the factor); the guard band is 1.96 u. */
  @Test
  void limitsAreTheToleranceIntervalAndAGuardBand() {
    LearnedFigure figure = new LearnedFigure("x", "Hz", 10, 34, 0.01, 0.002);
    double arm = Math.log(figure.limits().high() / 34);
    assertEquals(4.4446 * 0.01 + 1.96 * 0.002, arm, 1e-5);
    assertEquals(arm, Math.log(34 / figure.limits().low()), 1e-12);
  }

  @Test
  void anotherBoxIsExpectedTheWiderTheFewerWereSeen() {
    double few = new LearnedFigure("x", "", 5, 1, 0.02, 0).expectedSpread();
    double many = new LearnedFigure("x", "", 500, 1, 0.02, 0).expectedSpread();
    assertTrue(few > 2.4 * 0.02 && many < 1.1 * 0.02 && many > 0.02, few + " " + many);
    assertTrue(new LearnedFigure("x", "", 5, 1, 0, 0).expectedSpread() > 0);
  }

  private static List<Map<FigureKind, Reading>> boxes(double... hertz) {
    List<Map<FigureKind, Reading>> all = new ArrayList<>();
    for (double hz : hertz) {
      all.add(Map.of(TUNING, new Reading(hz, 0.002)));
    }
    return all;
  }

  @Test
  void aBoxFarFromTheMedianIsNamedWithItsFigureAndTheOthersAreNot() {
    List<Map<FigureKind, Reading>> all = boxes(34, 34.3, 33.8, 33.9, 34.2, 40.8);
    String told = Screening.unlike(all.get(5), all).orElseThrow();
    assertTrue(told.startsWith("its tuning of port is 19"), told);
    for (int i = 0; i < 5; i++) {
      assertFalse(Screening.unlike(all.get(i), all).isPresent(), "box " + i);
    }
  }

  @Test
  void boxesThatHappenToBeAlikeDoNotMakeAnOrdinaryOneAnOutlier() {
    List<Map<FigureKind, Reading>> all = boxes(34, 34, 34.01, 34, 34.01, 34.8);
    assertTrue(Screening.unlike(all.get(5), all).isEmpty());
  }

  /** Spreads of 1.5 % (common practice): by simulation at most 1 sample of 100 loses a box. */
  @Test
  void goodSamplesSeldomLoseABox() {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    int lost = 0;
    for (int s = 0; s < 1000; s++) {
      double[] hertz = random.doubles(8).map(u -> 34).toArray();
      for (int i = 0; i < 8; i++) {
        hertz[i] *= Math.exp(0.015 * random.nextGaussian());
      }
      List<Map<FigureKind, Reading>> all = boxes(hertz);
      lost += all.stream().anyMatch(box -> Screening.unlike(box, all).isPresent()) ? 1 : 0;
    }
    assertTrue(lost <= 20, lost + " of 1000, seed " + seed);
  }
}
