package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import conewise.simulator.dynamics.Response;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class NearFieldTest {
  private static final double DENSITY = 1.204;
  private static final double AREA = 0.035;
  private static final double FORCE_FACTOR = 8;
  private static final double MASS = 0.06;

  private static Driver driver() {
    return new Driver(
        MASS,
        0.5e-3,
        1.5,
        AREA,
        List.of(new conewise.simulator.box.Coil(5.6, FORCE_FACTOR)),
        conewise.simulator.box.Inductance.NONE,
        0);
  }

  private static Box pair() {
    return Box.in(Air.ROOM)
        .space("upper", 200)
        .space("lower", 200)
        .driver("left", driver(), "upper")
        .driver("right", driver(), "lower")
        .wired(new Wiring.Parallel(List.of(Wiring.coil("left", 1), Wiring.coil("right", 1))));
  }

  /** Pressure per ampere of one driver at 1 kHz, where the mass alone holds the cone. */
  private static double pressurePerAmpere(Box box, Microphone microphone) {
    Complex[] read =
        Response.of(VirtualAnalog.model(box, JigImperfections.ideal().with(microphone)), 1000);
    return read[2].divide(read[1].divide(2)).getReal();
  }

  @Test
  void pressureBeforeAConeIsThatOfAPistonOnItsAxisAndOfItsNeighbour() {
    // Newton: a = Bl i / M. Rayleigh's integral, summed over rings of the piston here: each ring of
    // area 2 pi s ds at the distance sqrt(z^2 + s^2) adds rho a dS / (2 pi distance).
    double z = 0.02;
    double radius = Math.sqrt(AREA / Math.PI);
    int rings = 100_000;
    double integral = 0;
    for (int k = 0; k < rings; k++) {
      double s = (k + 0.5) * radius / rings;
      integral += s / Math.hypot(z, s) * radius / rings;
    }
    double acceleration = FORCE_FACTOR / MASS;
    double neighbour = AREA / (2 * Math.PI * 0.5);
    Microphone near = Microphone.NEAR.before("left", z).withOthersAt(0.5);
    double expected = DENSITY * acceleration * (integral + neighbour);
    // The suspension takes (29 / 1000)^2, 0.1 %.
    assertEquals(expected, pressurePerAmpere(pair(), near), 0.003 * expected);
    double reversed = DENSITY * acceleration * (-integral + neighbour);
    assertEquals(
        reversed,
        pressurePerAmpere(pair().withDriverReversed("left"), near),
        0.003 * Math.abs(reversed));
  }

  @Test
  void coneThatFacesInwardsIsHeardFromItsMagnetsSide() {
    Opening turned = new Opening.DriverOpening("left", driver(), "upper", Space.OUTSIDE);
    Microphone near = Microphone.NEAR.before("left", 0.02).withOthersAt(100);
    double usual = pressurePerAmpere(pair(), near);
    assertEquals(-usual, pressurePerAmpere(pair().with(turned), near), 0.01 * usual);
  }

  @Test
  void backwardMicrophoneTurnsTheSignAndAPulledOneIsSilent() {
    Microphone near = Microphone.NEAR.before("left", 0.02);
    double usual = pressurePerAmpere(pair(), near);
    assertEquals(-usual, pressurePerAmpere(pair(), near.withGain(-1)), 1e-9);
    assertEquals(0, pressurePerAmpere(pair(), near.withGain(0)), 1e-12);
  }

  @Test
  void couplingLetsHalfThePowerThroughAtItsCorner() {
    Microphone near = Microphone.NEAR.before("left", 0.02);
    double plain = at(near, 20).abs();
    // The staircase of the drive has images that fall back on its own frequency: some 1e-5 of it.
    assertEquals(plain / Math.sqrt(2), at(near.coupledFrom(20), 20).abs(), 1e-4 * plain);
  }

  private static Complex at(Microphone microphone, double hertz) {
    return Response.of(
        VirtualAnalog.model(pair(), JigImperfections.ideal().with(microphone)), hertz)[2];
  }

  @Test
  void roomNoiseHasTheStatedSizeAndFollowsTheGain() {
    for (double gain : new double[] {1, -2}) {
      Microphone noisy = Microphone.NEAR.withGain(gain).inNoise(0.1, 0.05);
      VirtualAnalog world = new VirtualAnalog(pair(), JigImperfections.ideal().with(noisy), 7);
      double sum = 0;
      int count = 200_000;
      for (int k = 0; k < count; k++) {
        world.tick(512);
        double pascal = (world.convert(2) - 512) / 256.0;
        sum += pascal * pascal;
      }
      double expected = Math.abs(gain) * Math.hypot(0.1, 0.05);
      // 13 s hold some 800 independent values of the rumble: its power within 20 % of a fifth.
      assertEquals(expected, Math.sqrt(sum / count), 0.03 * expected, "seed 7, gain " + gain);
    }
  }

  @Test
  void driverThatDoesNotFaceTheOutsideIsRefused() {
    Microphone lost = Microphone.NEAR.before("nobody", 0.02);
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class,
            () -> new VirtualAnalog(pair(), JigImperfections.ideal().with(lost), 1));
    assertTrue(refused.getMessage().contains("nobody"), refused.getMessage());
  }
}
