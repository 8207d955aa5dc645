package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.model.Opening.Mounted;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** Closed forms that a network must meet. */
class NetworkClosedFormTest {

  /**
   * Free air without inductance: r0 = Zmax/Re, f1 and f2 at sqrt(r0) Re (Thiele 1971; Small, J.
   * Audio Eng. Soc. 20, 1972; figures recomputed from Re 7, Mms 44.459 g, Cms 1.18e-3 m/N, Rms
   * 1.85, Bl 11.4, radius 0.12 m, density 1.2, sound 343).
   */
  @Test
  void freeAirPeakAndFlanks() {
    Driver driver = Driver.of(21.974, 3.3179, 0.33062, 0.34094, 1, 7);
    Network network = Network.of(BoxModel.freeAir(driver));
    double r0 = 1 + 3.3179 / 0.33062;
    assertEquals(7 * r0, network.impedance(21.974).abs(), 7 * r0 * 1e-9);
    assertEquals(Math.sqrt(r0) * 7, network.impedance(13.573).abs(), 2e-4 * 23);
    assertEquals(Math.sqrt(r0) * 7, network.impedance(35.573).abs(), 2e-4 * 23);
  }

  /** Two like drivers, one reversed, in one space: as in free air, halved (own derivation). */
  @Test
  void opposedDriversDoNotFeelTheBox() {
    Driver driver =
        Driver.of(32, 6, 0.4, 0.06, 1, 4).withInductance(Inductance.lossy(0.02, 0.7), 0);
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.05)),
            List.of(
                new Mounted("a", driver, "main", Space.OUTSIDE),
                new Mounted("b", driver, "main", Space.OUTSIDE)),
            Circuit.parallel(Circuit.coil("a", 1), new Circuit.Coil("b", 1, true)));
    Network opposed = Network.of(box);
    Network free = Network.of(BoxModel.freeAir(driver));
    for (double f = 5; f < 500; f *= 1.1) {
      Complex expected = free.impedance(f).divide(2);
      assertEquals(0, opposed.impedance(f).subtract(expected).abs() / expected.abs(), 1e-12);
    }
  }
}
