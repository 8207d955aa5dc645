package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class AirFlowTest {
  private static final double LOSSLESS = 1e9;
  private static final double OHM = 6;
  private static final double VAS = 0.06;

  /** Far above everything, where a box sounds alike at all frequencies. */
  private static double flatSound(BoxModel box) {
    return AirFlow.of(box, 1e5).sound();
  }

  private static BoxModel closed(double fs, double qms, double qes, double alpha) {
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(new Space("main", VAS / alpha)),
        List.of(new Mounted("d", Driver.of(fs, qms, qes, VAS, 1, OHM), "main", Space.OUTSIDE)),
        Circuit.coil("d", 1));
  }

  /** R. H. Small, J. Audio Eng. Soc. 20, 1972: a closed box is down to Qtc at fc (from memory). */
  @Test
  void aClosedBoxSoundsAsStrongAsItsTotalQAtItsResonance() {
    for (double alpha : new double[] {0.5, 1, 3}) {
      BoxModel box = closed(30, 5, 0.5, alpha);
      double rise = Math.sqrt(1 + alpha);
      double totalQ = rise / (1 / 5.0 + 1 / 0.5);
      double at = AirFlow.of(box, 30 * rise).sound() / flatSound(box);
      assertEquals(totalQ, at, 1e-6 * totalQ, "alpha " + alpha);
    }
  }

  /**
   * A. N. Thiele, J. Audio Eng. Soc. 19, 1971: with QT .3827, h 1 and alpha sqrt 2 a vented box
   * without losses is a Butterworth filter of the fourth order about its tuning (from memory).
   */
  @Test
  void aVentedBoxOfTheButterworthAlignmentFallsAsItsFilterDoes() {
    double fs = 32;
    double qt = 1 / Math.sqrt(2 * Math.sqrt(2) * (Math.sqrt(2) + 1)); // 0.38268
    Driver driver = Driver.of(fs, LOSSLESS, qt, VAS, 1, OHM);
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", VAS / Math.sqrt(2))),
            List.of(
                new Mounted("d", driver, "main", Space.OUTSIDE),
                new Vent("v", fs, LOSSLESS, "main", Space.OUTSIDE)),
            Circuit.coil("d", 1));
    for (double ratio : new double[] {0.4, 0.7, 1, 1.4, 3}) {
      double expected = 1 / Math.sqrt(1 + Math.pow(1 / ratio, 8));
      double found = AirFlow.of(box, ratio * fs).sound() / flatSound(box);
      assertEquals(expected, found, 1e-5, "f/fB " + ratio);
    }
    AirFlow tuned = AirFlow.of(box, fs);
    assertTrue(tuned.through("d").abs() < 1e-6 * tuned.through("v").abs(), "the cone rests");
  }

  /** Two like drivers against one another: what one pushes out, the other draws in. */
  @Test
  void ofTwoLikeDriversAgainstOneAnotherNothingIsHeardAndTheVentIsStill() {
    Driver driver = Driver.of(30, 5, 0.5, VAS, 1, OHM);
    BoxModel pair =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.07)),
            List.of(
                new Mounted("a", driver, "main", Space.OUTSIDE),
                new Mounted("b", driver, "main", Space.OUTSIDE),
                new Vent("v", 34, 50, "main", Space.OUTSIDE)),
            Circuit.parallel(Circuit.coil("a", 1), Circuit.coil("b", 1)));
    AirFlow right = AirFlow.of(pair, 60);
    AirFlow wrong = AirFlow.of(pair.withCircuit(pair.circuit().withReversed("b")), 60);
    assertTrue(wrong.outward().abs() < 1e-12 * right.outward().abs());
    assertTrue(wrong.through("v").abs() < 1e-12 * right.through("v").abs());
    Complex sum = wrong.through("a").add(wrong.through("b"));
    assertTrue(sum.abs() < 1e-12 * wrong.through("a").abs());
  }

  @Test
  void aDriverInFreeAirCancelsItself() {
    AirFlow flow = AirFlow.of(BoxModel.freeAir(Driver.of(30, 5, 0.5, VAS, 1, OHM)), 50);
    assertEquals(0, flow.outward().abs());
    assertTrue(flow.through("driver").abs() > 0);
    assertEquals(Complex.ZERO, flow.through("no such opening"));
  }

  @Test
  void thereIsNoFlowToAskForAtDirectCurrent() {
    BoxModel box = closed(30, 5, 0.5, 1);
    assertThrows(IllegalArgumentException.class, () -> AirFlow.of(box, 0));
    assertThrows(IllegalArgumentException.class, () -> AirFlow.of(box, Double.NaN));
  }
}
