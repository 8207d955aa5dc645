package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening.DriverOpening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Closed forms of Small, J. Audio Eng. Soc. 20 (1972), 383: free air, closed box, added mass. */
class FreeAirTest {
  /** A worked example: Re 7, Mms 44.459 g, Cms 1.18e-3 m/N, Rms 1.85, Bl 11.4, a 0.12 m. */
  private static final Driver DRIVER =
      new Driver(
          0.044459,
          1.18e-3,
          1.85,
          Math.PI * 0.12 * 0.12,
          List.of(new Coil(7, 11.4)),
          Inductance.NONE,
          0);

  private static final double FS = 21.974;
  private static final double QMS = 3.3179;
  private static final double QES = 0.33062;

  private static double resonance(Box box, double low, double high) {
    Impedance z = new Impedance(box);
    return Impedance.zero(z::reactance, low, high);
  }

  @Test
  void resonancePeakAndFlanksAreThoseOfTheWorkedExample() {
    Impedance z = new Impedance(Box.freeAir(DRIVER));
    double fs = Impedance.zero(z::reactance, 15, 30);
    assertEquals(FS, fs, 0.0005, "fs printed with five digits");
    double r0 = z.at(fs).abs() / 7;
    assertEquals(1 + QMS / QES, r0, 2e-3, "r0 = 1 + Qms/Qes");
    double flank = Math.sqrt(r0) * 7;
    double f1 = Impedance.zero(f -> z.at(f).abs() - flank, 5, fs);
    double f2 = Impedance.zero(f -> z.at(f).abs() - flank, fs, 80);
    assertEquals(13.573, f1, 0.0005);
    assertEquals(35.573, f2, 0.0005);
    assertEquals(fs * fs, f1 * f2, 1e-7 * fs * fs, "f1 f2 = fs^2");
    assertEquals(QMS, fs * Math.sqrt(r0) / (f2 - f1), 1e-4);
    assertEquals(QES, QMS / (r0 - 1), 1e-5);
  }

  @Test
  void theTickByTickStepHasTheSameImpedance() {
    Impedance z = new Impedance(Box.freeAir(DRIVER));
    for (double hz = 5; hz < 400; hz *= 1.1) {
      double exact = z.at(hz).abs();
      assertEquals(1, z.sampledAt(hz).abs() / exact, 3e-4, "held drive, at " + hz + " Hz");
    }
  }

  @Test
  void closedBoxRaisesResonanceByTheRootOfOnePlusTheVolumeRatio() {
    double vas = Air.ROOM.bulkModulusPa() * 1.18e-3 * Math.pow(DRIVER.areaM2(), 2);
    double a = 2.5;
    Box box =
        new Box(
            Air.ROOM,
            List.of(new Space("room", vas / a, 0)),
            List.of(new DriverOpening("driver", DRIVER, Space.OUTSIDE, "room")),
            Wiring.coil("driver", 1),
            List.of());
    double fs = resonance(Box.freeAir(DRIVER), 15, 30);
    assertEquals(Math.sqrt(1 + a), resonance(box, 25, 80) / fs, 1e-9);
  }

  @Test
  void addedMassIsFoundAgainFromTheTwoResonances() {
    double added = 0.04;
    double fs = resonance(Box.freeAir(DRIVER), 15, 30);
    double fm = resonance(Box.freeAir(DRIVER.withAddedMass(added)), 10, 30);
    assertEquals(0.044459, added / (Math.pow(fs / fm, 2) - 1), 1e-9, "Mms = Ma/((fs/fm)^2 - 1)");
  }
}
