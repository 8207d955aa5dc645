package conewise.analysis.sound;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TwoSourcesTest {
  private static double decibel(Outcome<Double> sum) {
    assertInstanceOf(Found.class, sum, sum.toString());
    return ((Found<Double>) sum).value();
  }

  /** 20 log10(2 |cos(phi / 2)|), tabulated by hand. */
  @ParameterizedTest
  @CsvSource({"0, 6.02", "60, 4.77", "90, 3.01", "120, 0", "150, -5.72", "170, -15.17"})
  void twoAlikeAddByTheirPhase(double degrees, double published) {
    assertEquals(published, decibel(TwoSources.equal().sumDecibel(degrees)), 0.005);
  }

  /** A second source 6.02 dB down adds half its pressure: 1.5 and 0.5 times, 3.52 and -6.02 dB. */
  @Test
  void aWeakerSourceNeitherDoublesNorSilences() {
    TwoSources half = new TwoSources(20 * Math.log10(0.5));
    assertEquals(3.52, half.mostDecibel(), 0.005);
    assertEquals(-6.02, decibel(half.leastDecibel()), 0.005);
  }

  @Test
  void twoAlikeHalfATurnApartLeaveNothingAndNoNumber() {
    for (double degrees : new double[] {180, -180, 540}) {
      assertInstanceOf(NoResult.class, TwoSources.equal().sumDecibel(degrees), degrees + "");
    }
  }

  /** The arrows themselves, added by Commons Math; and what is symmetric stays so. */
  @Test
  void levelsAreThoseOfAddedArrows() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("two sources: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 1000; i++) {
      double difference = -30 + 60 * random.nextDouble();
      double degrees = -170 + 340 * random.nextDouble();
      TwoSources sources = new TwoSources(difference);
      double sum = decibel(sources.sumDecibel(degrees));
      Complex second =
          new Complex(0, Math.toRadians(degrees)).exp().multiply(Math.pow(10, difference / 20));
      String which = "seed " + seed + ", case " + i;
      assertEquals(20 * Math.log10(second.add(1).abs()), sum, 1e-9, which);
      assertEquals(sum, decibel(sources.sumDecibel(-degrees)), 1e-9, which);
      assertEquals(sum, decibel(sources.sumDecibel(degrees + 720)), 1e-9, which);
      // Told against the other source, the sum is the difference less.
      double other = decibel(new TwoSources(-difference).sumDecibel(degrees));
      assertEquals(sum - difference, other, 1e-9, which);
      assertTrue(sum <= sources.mostDecibel() + 1e-9, which);
    }
  }

  @Test
  void refusesWhatIsNoLevelAndNoPhase() {
    assertThrows(IllegalArgumentException.class, () -> new TwoSources(201));
    assertThrows(IllegalArgumentException.class, () -> new TwoSources(Double.NaN));
    TwoSources equal = TwoSources.equal();
    assertThrows(IllegalArgumentException.class, () -> equal.sumDecibel(Double.NaN));
  }
}
