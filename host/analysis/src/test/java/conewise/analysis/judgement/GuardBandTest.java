package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.outcome.Interval;
import org.junit.jupiter.api.Test;

class GuardBandTest {

  @Test
  void wholeIntervalInsidePassesEndsIncluded() {
    assertEquals(Decision.PASS, GuardBand.decide(new Interval(1, 2), new Interval(1, 2)));
  }

  @Test
  void wholeIntervalOutsideFails() {
    assertEquals(Decision.FAIL, GuardBand.decide(new Interval(2.01, 3), new Interval(1, 2)));
    assertEquals(Decision.FAIL, GuardBand.decide(new Interval(0, 0.99), Interval.atLeast(1)));
  }

  @Test
  void intervalAcrossALimitIsUndecided() {
    assertEquals(Decision.UNDECIDED, GuardBand.decide(new Interval(1.5, 2.5), new Interval(1, 2)));
    assertEquals(Decision.UNDECIDED, GuardBand.decide(new Interval(0, 3), new Interval(1, 2)));
  }

  /**
   * JCGM 106:2012, example in 7: -5.47 with u 0.05 against an upper limit of -5.40 (from memory).
   */
  @Test
  void conformanceBelowAnUpperLimitAsInTheGuide() {
    assertEquals(
        0.919, GuardBand.conformanceProbability(-5.47, 0.05, Interval.atMost(-5.40)), 5e-4);
  }

  /** JCGM 106:2012, example in 7: 509.7 with u 8.6 against a lower limit of 490 (from memory). */
  @Test
  void conformanceAboveALowerLimitAsInTheGuide() {
    assertEquals(0.989, GuardBand.conformanceProbability(509.7, 8.6, Interval.atLeast(490)), 5e-4);
  }
}
