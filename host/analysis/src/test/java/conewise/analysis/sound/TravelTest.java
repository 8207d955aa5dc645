package conewise.analysis.sound;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Air;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TravelTest {
  private static final Air AIR = Air.AT_20_CELSIUS;

  /** 343.2 m/s at 20 degrees: 2.914 ms a metre, and a foot (0.3048 m) in 0.888 ms. */
  @ParameterizedTest
  @CsvSource({"1, 2.91375", "0.3048, 0.88811", "34.32, 100", "0, 0"})
  void aDistanceTakesItsTime(double metres, double milliseconds) {
    assertEquals(milliseconds, 1e3 * Travel.over(metres, AIR).delaySeconds(), 1e-5);
  }

  /** 80 Hz: 4.29 m long; a quarter of that lags 90 degrees, 1.25 lengths 90 degrees as well. */
  @Test
  void aQuarterOfAWavelengthLagsNinetyDegrees() {
    Travel.Phase quarter = Travel.over(4.29 / 4, AIR).at(80, AIR);
    assertEquals(4.29, quarter.wavelengthM(), 1e-12);
    assertEquals(90, quarter.lagDegrees(), 1e-9);
    Travel.Phase more = Travel.over(4.29 * 1.25, AIR).at(80, AIR);
    assertEquals(90, more.lagDegrees(), 1e-9);
    assertEquals(1.25, more.turns(), 1e-12);
    for (int periods = 0; periods < 40; periods++) {
      assertEquals(0, Travel.over(periods * 4.29, AIR).at(80, AIR).lagDegrees(), 1e-9);
    }
  }

  @Test
  void distanceDelayAndPhaseAreInverse() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("distances: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 1000; i++) {
      Air air = Air.at(-20 + 70 * random.nextDouble());
      double distance = 100 * random.nextDouble();
      double hz = Math.exp(10 * random.nextDouble());
      Travel travel = Travel.over(distance, air);
      String which = "seed " + seed + ", case " + i;
      assertEquals(
          distance, Travel.during(travel.delaySeconds(), air).distanceM(), 1e-12 * 100, which);
      double lag = 360 * travel.at(hz, air).turns();
      assertEquals(distance, Travel.turning(lag, hz, air).distanceM(), 1e-9, which);
      double within = travel.at(hz, air).lagDegrees();
      assertTrue(within >= 0 && within < 360, which + ": " + within);
    }
  }

  @Test
  void refusesAWayBackAndNoFrequency() {
    String message =
        assertThrows(IllegalArgumentException.class, () -> Travel.over(-1, AIR)).getMessage();
    assertTrue(message.contains("-1.0 m") && message.contains("not below 0"), message);
    Travel travel = Travel.over(1, AIR);
    assertThrows(IllegalArgumentException.class, () -> travel.at(0, AIR));
    assertThrows(IllegalArgumentException.class, () -> Travel.turning(-1, 80, AIR));
  }
}
