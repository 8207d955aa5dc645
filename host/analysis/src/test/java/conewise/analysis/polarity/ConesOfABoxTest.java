package conewise.analysis.polarity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class ConesOfABoxTest {
  private static Map<String, Outcome<Motion>> told(boolean backward, double... pascal) {
    Map<String, String> kinds = new LinkedHashMap<>();
    Map<String, Outcome<FirstHalfCycle>> heard = new LinkedHashMap<>();
    for (int k = 0; k < pascal.length; k++) {
      kinds.put("d" + k, "one kind");
      heard.put("d" + k, Outcome.found(new FirstHalfCycle(pascal[k], 0.01, 8, 0.05)));
    }
    return ConesOfABox.of(kinds, heard, backward);
  }

  private static void expect(Map<String, Outcome<Motion>> told, Motion... motions) {
    for (int k = 0; k < motions.length; k++) {
      assertEquals(Outcome.found(motions[k]), told.get("d" + k), told::toString);
    }
  }

  private static void none(String word, Outcome<Motion> told) {
    assertTrue(
        told instanceof NoResult<Motion> none && none.because().contains(word), told::toString);
  }

  @Test
  void risingPressureIsAConeThatSetsOutUnlessTheMicrophoneIsBackward() {
    expect(told(false, 0.8, -0.7), Motion.OUT, Motion.IN);
    expect(told(true, 0.8, -0.7), Motion.IN, Motion.OUT);
  }

  @Test
  void deadConeIsHeardWithItsNeighboursAndNotTakenForOut() {
    // Small source at 2.4 radii before a piston of like acceleration: 1 / (2 x 2.4) of it.
    expect(told(false, 0.8, 0.8 / 4.8), Motion.OUT, Motion.HARDLY);
    expect(told(false, -0.8, -0.8 / 4.8), Motion.IN, Motion.HARDLY);
  }

  @Test
  void oneReversedAmongFourIsWeakButAgainstThem() {
    double each = 1 / 4.8;
    double right = 1 + 2 * each - each;
    double reversed = -1 + 3 * each;
    double scale = 0.6;
    expect(
        told(false, right * scale, reversed * scale, right * scale, right * scale),
        Motion.OUT,
        Motion.IN,
        Motion.OUT,
        Motion.OUT);
  }

  @Test
  void whatLiesBetweenStillAndMovedIsNotTold() {
    none("strongest", told(false, 0.8, 0.4).get("d1"));
    none("strongest", told(false, 0.8, -0.14).get("d1"));
  }

  @Test
  void amongMoreThanFourNoneIsToldToStandStill() {
    none("strongest", told(false, 0.8, 0.8, 0.8, 0.8, 0.1).get("d4"));
  }

  @Test
  void coneHeardAtALowerLevelIsComparedByItsCurrent() {
    Map<String, Outcome<Motion>> told =
        ConesOfABox.of(
            Map.of("loud", "a", "dead", "a"),
            Map.of(
                "loud", new Found<>(new FirstHalfCycle(0.4, 0.01, 8, 0.0125)),
                "dead", new Found<>(new FirstHalfCycle(0.35, 0.01, 8, 0.05))),
            false);
    assertEquals(Outcome.found(Motion.OUT), told.get("loud"));
    assertEquals(Outcome.found(Motion.HARDLY), told.get("dead"));
  }

  @Test
  void quietBoxIsNotTold() {
    none("Too quiet", told(false, 0.05, 0.04).get("d0"));
  }

  @Test
  void oneDriverOfSeveralIsNotToldAlone() {
    Map<String, Outcome<Motion>> told =
        ConesOfABox.of(
            Map.of("left", "a", "right", "a"),
            Map.of("left", new Found<>(new FirstHalfCycle(0.8, 0.01, 8, 0.05))),
            false);
    none("right was not heard", told.get("left"));
  }

  @Test
  void loneDriverIsTold() {
    expect(told(false, -0.3), Motion.IN);
  }
}
