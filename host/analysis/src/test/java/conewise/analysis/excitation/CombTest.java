package conewise.analysis.excitation;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class CombTest {

  @Test
  void standardCombCoversTheRangeWithAHundredLinesAndALowPeak() {
    Comb comb = Comb.standard();
    double[] hz = comb.frequenciesHz();
    System.out.printf("comb: %d lines, crest factor %.3f%n", hz.length, comb.crestFactor());
    assertTrue(hz.length >= 100, hz.length + " lines");
    assertTrue(hz[0] <= 10 && hz[0] > 9, "lowest " + hz[0]);
    assertTrue(hz[hz.length - 1] >= 399, "highest " + hz[hz.length - 1]);
    // A sine has the root of 2; random phases give about 3 to 4 (common practice).
    assertTrue(comb.crestFactor() < 2, "crest factor " + comb.crestFactor());
    assertEquals(262144, comb.step(64e-6));
  }

  @Test
  void linesInTheDensePartStandAtMostTwoAndAHalfHertzApartAndClearOfMains() {
    double[] hz = Comb.standard().frequenciesHz();
    for (int i = 1; i < hz.length; i++) {
      double gap = hz[i] - hz[i - 1];
      if (hz[i] < 100) {
        assertTrue(gap < 3.9, "a gap of " + gap + " Hz below " + hz[i]);
      }
      for (double mains : new double[] {50, 60, 100, 120, 150, 180}) {
        assertTrue(Math.abs(hz[i] - mains) >= 0.6, hz[i] + " Hz stands next to " + mains);
      }
    }
  }

  /** The table's own discrete Fourier sum, taken here by direct summation. */
  @Test
  void eachLineIsPlayedAndTheSilentOnesAreNot() {
    Comb comb = Comb.standard();
    int n = comb.table().length;
    double weakest = Double.POSITIVE_INFINITY;
    double strongestSilent = 0;
    for (int line = 1; line < n / 2; line++) {
      double re = 0;
      double im = 0;
      for (int k = 0; k < n; k++) {
        re += comb.table()[k] * Math.cos(2 * Math.PI * line * k / n);
        im += comb.table()[k] * Math.sin(2 * Math.PI * line * k / n);
      }
      double amplitude = 2 * Math.hypot(re, im) / n;
      if (comb.lines().contains(line)) {
        weakest = Math.min(weakest, amplitude);
      } else {
        strongestSilent = Math.max(strongestSilent, amplitude);
      }
    }
    // Rounding to whole points is worth about 2 sqrt(1/12/1024) = 0.018 a line, 0.06 at most.
    assertTrue(strongestSilent < 0.1, "silent: " + strongestSilent);
    assertTrue(weakest > 5, "played: " + weakest);
  }

  @Test
  void sameArgumentsGiveTheSameTable() {
    Comb first = Comb.design(64e-6, 16384, 1024, 7);
    Comb second = Comb.design(64e-6, 16384, 1024, 7);
    assertArrayEquals(first.table(), second.table());
    assertFalse(java.util.Arrays.equals(first.table(), Comb.design(64e-6, 16384, 1024, 8).table()));
  }
}
