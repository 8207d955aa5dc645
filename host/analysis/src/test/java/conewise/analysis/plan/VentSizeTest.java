package conewise.analysis.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Air;
import conewise.analysis.plan.VentSize.End;
import org.junit.jupiter.api.Test;

class VentSizeTest {
  private static final double LITRE = 1e-3;

  /**
   * By hand, c = 343.2 m/s, S = pi 0.05^2 = 7.853982e-3 m2, 50 litres, c/(2 pi) = 54.62198: L = 0.2
   * + (0.84883 + 0.6133) 0.05 = 0.2731063 m gives 54.62198 sqrt(0.5751573) = 41.425 Hz; both free,
   * L = 0.26133 m, gives 54.62198 sqrt(0.6010776) = 42.348 Hz.
   */
  @Test
  void tunesByTheLengthWithBothEnds() {
    VentSize flanged = VentSize.round(0.1, 0.2, 1, End.FREE, End.FLANGED);
    VentSize free = VentSize.round(0.1, 0.2, 1, End.FREE, End.FREE);
    assertEquals(41.425, flanged.tuningHz(50 * LITRE, Air.AT_20_CELSIUS), 0.001);
    assertEquals(42.348, free.tuningHz(50 * LITRE, Air.AT_20_CELSIUS), 0.001);
  }

  /** Side by side, masses are halved; common practice. */
  @Test
  void twoLikeVentsTuneRootTwoHigher() {
    VentSize one = VentSize.round(0.08, 0.2, 1, End.FREE, End.FLANGED);
    VentSize two = VentSize.round(0.08, 0.2, 2, End.FREE, End.FLANGED);
    assertEquals(
        Math.sqrt(2) * one.tuningHz(60 * LITRE, Air.AT_20_CELSIUS),
        two.tuningHz(60 * LITRE, Air.AT_20_CELSIUS),
        1e-9);
  }

  /**
   * A wall beside a duct mirrors it: two ducts of half the space each, seen as one of twice the
   * section, add the end of that larger one. Worked with NumPy: 30 x 3 x 28 cm in 45 litres,
   * 39.0818 Hz.
   */
  @Test
  void aWallAlongsideLengthensTheEnds() {
    VentSize slot = new VentSize(0.3 * 0.03, 0.28, 1, End.FREE, End.FLANGED, true);
    assertEquals(39.0818, slot.tuningHz(45 * LITRE, Air.AT_20_CELSIUS), 0.0001);
  }

  @Test
  void theLengthForATuningGivesThatTuning() {
    VentSize size = VentSize.round(0.1, 0.2, 1, End.FREE, End.FLANGED);
    double length = size.lengthForM(34, 60 * LITRE, Air.AT_20_CELSIUS);
    VentSize made = VentSize.round(0.1, length, 1, End.FREE, End.FLANGED);
    assertEquals(34, made.tuningHz(60 * LITRE, Air.AT_20_CELSIUS), 1e-9);
    assertTrue(size.lengthForM(300, 60 * LITRE, Air.AT_20_CELSIUS) < 0, "no hole tunes so high");
  }

  @Test
  void refusesASizeOfNothing() {
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () -> VentSize.round(0.1, 0, 1, End.FREE, End.FLANGED))
            .getMessage();
    assertTrue(message.contains("0.0") && message.contains("above 0"), message);
  }
}
