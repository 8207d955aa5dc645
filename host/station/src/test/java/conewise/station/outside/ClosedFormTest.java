package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Wiring;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * Small's closed forms (J. Audio Eng. Soc. 1972: direct-radiator loudspeakers, closed-box systems;
 * from memory) against impedance measured through the protocol.
 */
class ClosedFormTest {
  // The example driver: fs 21.974 Hz, Qms 3.3179, Qes 0.33062 by the same formulas.
  private static final double RE = 7;
  private static final double MMS = 0.044459;
  private static final double CMS = 1.18e-3;
  private static final double RMS = 1.85;
  private static final double BL = 11.4;
  private static final double AREA = Math.PI * 0.12 * 0.12;
  private static final double FS = 1 / (2 * Math.PI * Math.sqrt(MMS * CMS));
  private static final double VB_LITRE = 40;

  @Test
  void aDriverInFreeAirFollowsItsClosedForm() throws Exception {
    MeasuredCurve measured = MeasuredCurve.of(Box.freeAir(driver()));
    measured.assertEqualTo(hz -> free(hz, CMS), "Re + Bl^2/Zm");
    assertEquals(21.974, FS, 0.001, "the published example's fs");
    assertEquals(FS, measured.fallingPhaseZeroHz(), 0.005 * FS);
  }

  @Test
  void aClosedBoxRaisesTheResonanceByTheRootOfOnePlusAlpha() throws Exception {
    MeasuredCurve measured = MeasuredCurve.of(sealed(VB_LITRE, 1, false));
    double expectedHz = FS * Math.sqrt(1 + alpha(VB_LITRE));
    assertEquals(expectedHz, measured.fallingPhaseZeroHz(), 0.005 * expectedHz);
    measured.assertEqualTo(
        hz -> free(hz, CMS / (1 + alpha(VB_LITRE))), "a driver stiffened by its box");
  }

  @Test
  void twoDriversInPhaseEqualOneInHalfTheBoxHalved() throws Exception {
    MeasuredCurve.of(sealed(VB_LITRE, 2, false))
        .assertEqualTo(hz -> free(hz, CMS / (1 + alpha(VB_LITRE / 2))).divide(2), "Z_one(V/2)/2");
  }

  @Test
  void twoDriversOpposedInOneSpaceShowTheUnmountedCurveHalved() throws Exception {
    MeasuredCurve.of(sealed(VB_LITRE, 2, true))
        .assertEqualTo(hz -> free(hz, CMS).divide(2), "Z_free/2, whatever the box");
  }

  private static double alpha(double boxLitre) {
    double bulk = 1.204 * 343.2 * 343.2;
    return bulk * AREA * AREA * CMS / (boxLitre * 1e-3);
  }

  private static Complex free(double hz, double compliance) {
    double omega = 2 * Math.PI * hz;
    Complex mechanical = new Complex(RMS, omega * MMS - 1 / (omega * compliance));
    return new Complex(BL * BL).divide(mechanical).add(RE);
  }

  private static Box sealed(double litre, int drivers, boolean oneReversed) {
    var builder = Box.in(Air.ROOM).space("main", litre).driver("one", driver(), "main");
    Wiring one = new Wiring.CoilLeads("one", 1, false, Wiring.CoilState.SOUND);
    if (drivers == 1) {
      return builder.wired(one);
    }
    Wiring two = new Wiring.CoilLeads("two", 1, oneReversed, Wiring.CoilState.SOUND);
    return builder.driver("two", driver(), "main").wired(new Wiring.Parallel(List.of(one, two)));
  }

  private static Driver driver() {
    return new Driver(MMS, CMS, RMS, AREA, List.of(new Coil(RE, BL)), Inductance.NONE, 0);
  }
}
