package conewise.simulator.box;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class SpreadTest {
  private static final Driver DRIVER =
      new Driver(0.06, 4e-4, 1.6, 0.035, List.of(new Coil(3.4, 8)), Inductance.plain(1e-3), 0);
  private static final Box BOX = Box.freeAir(DRIVER);

  private static Driver drawn(Spread spread, long seed) {
    Box box = spread.applyTo(BOX, seed);
    return ((Opening.DriverOpening) box.openings().get(0)).driver();
  }

  @Test
  void drawsStayWithinTheirShareAndFillIt() {
    Spread spread = new Spread(0.1, 0, 0, 0, 0, 0);
    double lowest = 1;
    double highest = 1;
    for (long seed = 0; seed < 400; seed++) {
      double ratio = drawn(spread, seed).massKg() / 0.06;
      lowest = Math.min(lowest, ratio);
      highest = Math.max(highest, ratio);
      assertEquals(4e-4, drawn(spread, seed).complianceMPerN(), 0, "seed " + seed);
    }
    // 400 even draws miss a tenth of the interval at one end with a chance below 1e-9.
    assertTrue(lowest >= 0.9 && lowest < 0.92, "lowest " + lowest);
    assertTrue(highest <= 1.1 && highest > 1.08, "highest " + highest);
  }

  @Test
  void sameSeedDrawsTheSameDriverAndAnotherSeedAnother() {
    assertEquals(drawn(Spread.ofBatch(), 5), drawn(Spread.ofBatch(), 5));
    assertNotEquals(drawn(Spread.ofBatch(), 5), drawn(Spread.ofBatch(), 6));
  }

  @Test
  void shareBeyondAHalfIsRefusedWithItsLimit() {
    String message =
        assertThrows(IllegalArgumentException.class, () -> Spread.of(0.6)).getMessage();
    assertTrue(message.contains("0.6") && message.contains("0.5"), message);
  }
}
