package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.box.Inductance;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The chain of sections against the power law of W. M. Leach, J. Audio Eng. Soc. 50 (2002), 442.
 */
class LossyInductanceTest {
  private static Complex impedance(Inductance chain, double hz) {
    Complex s = new Complex(0, 2 * Math.PI * hz);
    Complex sum = s.multiply(chain.seriesHenry());
    for (Inductance.Section each : chain.sections()) {
      Complex coil = s.multiply(each.henry());
      sum = sum.add(coil.multiply(each.ohm()).divide(coil.add(each.ohm())));
    }
    return sum;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95})
  void chainFollowsThePowerLawWithinOneAndAHalfPercentFrom5HzTo5KHz(double n) {
    Inductance chain = Inductance.lossy(0.01, n);
    double worst = 0;
    for (double hz = 5; hz <= 5000; hz *= 1.03) {
      Complex exact = new Complex(0, 2 * Math.PI * hz).pow(n).multiply(0.01);
      worst = Math.max(worst, impedance(chain, hz).subtract(exact).abs() / exact.abs());
    }
    assertTrue(worst < 0.015, "largest deviation " + worst + " for n " + n);
  }

  @Test
  void publishedExampleIsMetAtOneKilohertz() {
    // K 6.89e-3, n 0.7 give 1.426 + j2.798 ohm at 1 kHz: the formula evaluated by hand.
    Complex z = impedance(Inductance.lossy(6.89e-3, 0.7), 1000);
    assertEquals(1.426, z.getReal(), 0.015 * 3.14);
    assertEquals(2.798, z.getImaginary(), 0.015 * 3.14);
  }
}
