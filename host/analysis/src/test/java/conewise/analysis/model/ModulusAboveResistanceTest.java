package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.DirectResistance;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** What the highest surely rated impedance of a wiring rests on. */
class ModulusAboveResistanceTest {

  @Test
  void noBoxHasAModulusBelowItsDcResistance() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("boxes: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 60; i++) {
      BoxModel box = DrawnModels.box(random);
      double least = DirectResistance.ohm(box) * (1 - 1e-9);
      Network network = Network.of(box);
      for (double hz = 5; hz < 2000; hz *= 1.12) {
        Complex z = network.impedance(hz);
        assertTrue(z.getReal() >= least, "seed " + seed + ", case " + i + " at " + hz + " Hz");
      }
    }
  }
}
