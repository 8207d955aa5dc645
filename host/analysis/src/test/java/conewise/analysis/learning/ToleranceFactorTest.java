package conewise.analysis.learning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ToleranceFactorTest {

  /** NIST/SEMATECH e-Handbook 7.2.6.3: 43 values, 90 % with 99 % confidence (from memory). */
  @Test
  void theHandbooksExampleComesOut() {
    assertEquals(2.217, ToleranceFactor.twoSided(43, 0.9, 0.99), 5e-4);
  }

  /**
   * The exact factors for 99 % with 95 % confidence, from the integral of A. Wald and J. Wolfowitz,
   * Ann. Math. Statist. 17, 1946, by SciPy's quadrature; C. Eisenhart's table of 1947 has 5.775,
   * 4.433, 3.615, 3.350 and 2.934 for 6, 10, 20, 30 and 100 (from memory).
   */
  @ParameterizedTest
  @CsvSource({
    "5, 6.598",
    "6, 5.7577",
    "8, 4.8892",
    "10, 4.4369",
    "20, 3.621",
    "30, 3.3546",
    "100, 2.9355"
  })
  void itIsNearTheExactFactor(int n, double exact) {
    assertEquals(exact, ToleranceFactor.twoSided(n, 0.99, 0.95), 0.015 * exact);
  }

  @Test
  void limitsOfDrawnSamplesHoldTheShareAsOftenAsTheyShould() {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    int held = 0;
    int samples = 4000;
    double k = ToleranceFactor.twoSided(8, 0.99, 0.95);
    for (int s = 0; s < samples; s++) {
      double sum = 0;
      double squares = 0;
      for (int i = 0; i < 8; i++) {
        double x = random.nextGaussian();
        sum += x;
        squares += x * x;
      }
      double mean = sum / 8;
      double deviation = Math.sqrt((squares - 8 * mean * mean) / 7);
      held += normal(mean + k * deviation) - normal(mean - k * deviation) >= 0.99 ? 1 : 0;
    }
    // 0.95 by design; four standard deviations of the count are 0.014, and Howe errs by 0.002.
    assertEquals(0.95, (double) held / samples, 0.016, "seed " + seed);
  }

  private static double normal(double z) {
    return 0.5 * org.apache.commons.math3.special.Erf.erfc(-z / Math.sqrt(2));
  }

  @Test
  void whatIsNoSampleOrNoShareIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> ToleranceFactor.twoSided(1, 0.99, 0.95));
    assertThrows(IllegalArgumentException.class, () -> ToleranceFactor.twoSided(5, 1, 0.95));
    assertThrows(
        IllegalArgumentException.class, () -> ToleranceFactor.twoSided(5, 0.99, Double.NaN));
    assertTrue(ToleranceFactor.twoSided(2, 0.99, 0.95) > 30, "two values tell next to nothing");
  }
}
