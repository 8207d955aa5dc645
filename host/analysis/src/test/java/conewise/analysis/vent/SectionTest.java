package conewise.analysis.vent;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.vent.Mouth.Surround;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SectionTest {

  /** Correction over sqrt(S / pi), by numerical integration of 1 / r over the mouth with SciPy. */
  @ParameterizedTest
  @CsvSource({"1, 0.83873", "2, 0.81491", "5, 0.72353", "10, 0.62955", "20, 0.53054"})
  void aFlangedRectangleHasTheCorrectionOfRayleighsIntegral(double aspect, double published) {
    double radius = Math.sqrt(aspect * 0.02 * 0.02 / Math.PI);
    Section lying = new Section.Slot(aspect * 0.02, 0.02);
    Section standing = new Section.Slot(0.02, aspect * 0.02);
    assertEquals(published, lying.flangedM() / radius, 1e-5);
    assertEquals(published, standing.flangedM() / radius, 1e-5);
  }

  /** Table of the trade: 0.8488 radii flanged (Rayleigh), 0.6133 free (Levine and Schwinger). */
  @Test
  void aRoundMouthHasTheClassicCorrections() {
    Section round = new Section.Round(0.1);
    assertEquals(0.8488 * 0.05, Mouth.of(Surround.FLANGED).correctionM(round), 0.00005 * 0.05);
    assertEquals(0.6133 * 0.05, Mouth.of(Surround.FREE).correctionM(round), 1e-12);
  }

  /** By SciPy's quad over the distances between the two rectangles. */
  @Test
  void theImageOfASlotAddsWhatIntegrationSays() {
    Section slot = new Section.Slot(0.3, 0.05);
    assertEquals(0.0147778485, slot.imageM(0.04), 1e-9);
    assertEquals(0.0279671194, slot.imageM(0), 1e-9);
  }

  /** By SciPy's quad with complete elliptic integrals; the series is 2.4 % off at worst. */
  @ParameterizedTest
  @CsvSource({"0, 0.0136101, 0.025", "0.01, 0.0109708, 0.01", "0.05, 0.00635397, 0.001"})
  void theImageOfARoundMouthIsNearWhatIntegrationSays(double gap, double exact, double relative) {
    assertEquals(exact, new Section.Round(0.1).imageM(gap), relative * exact);
  }

  /** A mirror makes of a slot on the floor one of twice the height (common practice). */
  @Test
  void aSlotOnTheFloorHasTheCorrectionOfItselfAndItsImageAsOneMouth() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("slots on the floor: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 500; i++) {
      double width = 0.005 + random.nextDouble();
      double height = 0.005 + 0.3 * random.nextDouble();
      Section slot = new Section.Slot(width, height);
      double whole = new Section.Slot(width, 2 * height).flangedM();
      double onFloor = Mouth.of(Surround.FLANGED).beside(0).correctionM(slot);
      assertEquals(whole, onFloor, 1e-9 * whole, "seed " + seed + ", case " + i);
    }
  }

  /** Farther from the floor the image counts less, and far away as a point's. */
  @Test
  void theImageFadesWithTheGapToThatOfAPoint() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("images: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 300; i++) {
      double height = 0.01 + 0.1 * random.nextDouble();
      Section slot = new Section.Slot(0.01 + 0.3 * random.nextDouble(), height);
      Section round = new Section.Round(height);
      for (Section each : new Section[] {slot, round}) {
        double near = each.imageM(0.02);
        assertTrue(near < each.imageM(0) && near > each.imageM(0.1), "seed " + seed);
        double point = each.areaM2() / (2 * Math.PI * (height + 2 * 10));
        assertEquals(point, each.imageM(10), 0.001 * point, "seed " + seed + ", case " + i);
      }
    }
  }

  @Test
  void refusesAMouthOfNoSizeAndAWallInsideIt() {
    assertThrows(IllegalArgumentException.class, () -> new Section.Round(0));
    assertThrows(IllegalArgumentException.class, () -> new Section.Slot(0.1, Double.NaN));
    String message =
        assertThrows(IllegalArgumentException.class, () -> Mouth.of(Surround.FREE).beside(-0.01))
            .getMessage();
    assertTrue(message.contains("-0.01 m") && message.contains("not below 0"), message);
  }
}
