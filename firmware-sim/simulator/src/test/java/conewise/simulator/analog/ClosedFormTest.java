package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * Closed forms for vented boxes and for several drivers in one space. Sources: R. H. Small, J.
 * Audio Eng. Soc. 21 (1973), 363 (vented); the identities for alike drivers follow by symmetry
 * (common practice).
 */
class ClosedFormTest {
  private static final double MASS = 0.05;
  private static final double AREA = 0.035;
  private static final double LOSS = 1.4;
  private static final double OHM = 6;
  private static final double BL = 11;
  private static final Inductance COIL = Inductance.stepped(0.0003, 0.0008, 6);

  private static Driver driver(double fs, double loss, Inductance coil) {
    double compliance = 1 / (Math.pow(2 * Math.PI * fs, 2) * MASS);
    return new Driver(MASS, compliance, loss, AREA, List.of(new Coil(OHM, BL)), coil, 0);
  }

  private static void assertSame(Complex expected, Complex actual, double relative, String where) {
    assertEquals(0, actual.subtract(expected).abs() / expected.abs(), relative, where);
  }

  private static Box vented(double fs, double a, double h, double loss) {
    Driver driver = driver(fs, loss, Inductance.NONE);
    double vas = Air.ROOM.bulkModulusPa() * driver.complianceMPerN() * AREA * AREA;
    Space space = new Space("main", vas / a, 0);
    return Box.in(Air.ROOM)
        .space(space)
        .driver("driver", driver, "main")
        .opening(Opening.Vent.tuning("port", Air.ROOM, space, h * fs, 1e9))
        .wired(Wiring.coil("driver", 1));
  }

  /** Poles of the motional part, where no current is left in a box without loss. */
  private static double pole(Impedance z, double low, double high) {
    return Impedance.zero(f -> z.at(f).subtract(OHM).reciprocal().getImaginary(), low, high);
  }

  @Test
  void losslessVentedBoxHasThePeaksOfTheWorkedExample() {
    Impedance z = new Impedance(vented(37.8, 1, 1, 0));
    assertEquals(23.36168, pole(z, 15, 37), 1e-5);
    assertEquals(61.16168, pole(z, 39, 90), 1e-5);
  }

  @Test
  void losslessVentedPeaksObeyProductAndSumRules() {
    double fs = 33;
    double a = 1.7;
    double h = 1.25;
    Impedance z = new Impedance(vented(fs, a, h, 0));
    double fb = h * fs;
    double low = pole(z, 10, 0.98 * fb);
    double high = pole(z, 1.02 * fb, 140);
    assertEquals(fs * fb, low * high, 1e-6 * fs * fb, "fL fH = fs fB");
    double sum = fs * fs * (1 + a) + fb * fb;
    assertEquals(sum, low * low + high * high, 1e-6 * sum, "fL^2 + fH^2 = fs^2 (1 + a) + fB^2");
  }

  @Test
  void alikeDriversInPhaseAreHalfOfOneInHalfTheSpace() {
    Driver driver = driver(35, LOSS, COIL);
    Impedance pair = new Impedance(pair(driver, false));
    Impedance half =
        new Impedance(
            Box.in(Air.ROOM)
                .space("main", 20)
                .vent("port", "main", 40, 30)
                .driver("left", driver, "main")
                .wired(Wiring.coil("left", 1)));
    for (double hz = 8; hz < 400; hz *= 1.07) {
      assertSame(half.at(hz).divide(2), pair.at(hz), 1e-9, hz + " Hz");
    }
  }

  @Test
  void alikeDriversOpposedShowHalfOfOneInFreeAirWhateverTheBoxIs() {
    Driver driver = driver(35, LOSS, COIL);
    Impedance pair = new Impedance(pair(driver, true));
    Impedance free = new Impedance(Box.freeAir(driver));
    for (double hz = 8; hz < 400; hz *= 1.07) {
      assertSame(free.at(hz).divide(2), pair.at(hz), 1e-9, hz + " Hz");
    }
  }

  private static Box pair(Driver driver, boolean opposed) {
    Box box =
        Box.in(Air.ROOM)
            .space("main", 40)
            .vent("port", "main", 40, 30)
            .driver("left", driver, "main")
            .driver("right", driver, "main")
            .wired(Wiring.parallel(Wiring.coil("left", 1), Wiring.coil("right", 1)));
    return opposed ? box.withDriverReversed("right") : box;
  }

  @Test
  void opposedCoilsOfOneDriverAreTheirResistanceAlone() {
    Coil coil = new Coil(OHM, BL);
    Driver driver =
        new Driver(MASS, 5e-4, LOSS, AREA, List.of(coil, coil), Inductance.lossy(0.02, 0.7), 1);
    Box series = Box.freeAir(driver).withCoilReversed("driver", 2);
    Box parallel =
        series.withTerminals(
            Wiring.parallel(
                Wiring.coil("driver", 1),
                new Wiring.CoilLeads("driver", 2, true, Wiring.CoilState.SOUND)));
    for (double hz = 8; hz < 400; hz *= 1.2) {
      assertSame(new Complex(2 * OHM), new Impedance(series).at(hz), 1e-9, hz + " Hz, series");
      assertSame(new Complex(OHM / 2), new Impedance(parallel).at(hz), 1e-9, hz + " Hz, parallel");
    }
  }

  @Test
  void idleDriverBesideTheDrivenOneFollowsTheNodalFormula() {
    Driver driver = driver(35, LOSS, Inductance.NONE);
    double litres = 30;
    Box open =
        Box.in(Air.ROOM)
            .space("main", litres)
            .driver("left", driver, "main")
            .driver("right", driver, "main")
            .wired(Wiring.coil("left", 1));
    Box shorted =
        new Box(
            open.air(),
            open.spaces(),
            open.openings(),
            open.terminals(),
            List.of(Wiring.coil("right", 1)));
    for (double hz = 8; hz < 400; hz *= 1.1) {
      double w = 2 * Math.PI * hz;
      Complex mechanical = new Complex(LOSS, w * MASS - 1 / (w * driver.complianceMPerN()));
      Complex spring =
          new Complex(0, -Air.ROOM.bulkModulusPa() * AREA * AREA / (w * litres / 1000));
      Complex damped = mechanical.add(BL * BL / OHM);
      assertSame(
          beside(mechanical, spring, mechanical),
          new Impedance(open).at(hz),
          1e-9,
          hz + " Hz open");
      assertSame(
          beside(mechanical, spring, damped),
          new Impedance(shorted).at(hz),
          1e-9,
          hz + " Hz short");
    }
  }

  /** Re + Bl^2 / (Zm + (spring beside the idle cone)), all on the mechanical side. */
  private static Complex beside(Complex mechanical, Complex spring, Complex idle) {
    Complex load = spring.multiply(idle).divide(spring.add(idle));
    return mechanical.add(load).reciprocal().multiply(BL * BL).add(OHM);
  }

  @Test
  void ladderOfCoilCapacitorAndResistorFollowsAlternatingCurrentTheory() {
    Wiring load =
        Wiring.series(
            Wiring.ohm(3),
            new Wiring.Inductor(0.002),
            Wiring.parallel(
                Wiring.ohm(20), new Wiring.Capacitor(1e-4, 0.1), new Wiring.Inductor(0.03)));
    Impedance z = new Impedance(Box.load(load));
    for (double hz = 5; hz < 2000; hz *= 1.2) {
      double w = 2 * Math.PI * hz;
      Complex beside =
          new Complex(1 / 20.0)
              .add(new Complex(0.1, -1 / (w * 1e-4)).reciprocal())
              .add(new Complex(0, w * 0.03).reciprocal());
      assertSame(beside.reciprocal().add(new Complex(3, w * 0.002)), z.at(hz), 1e-9, hz + " Hz");
    }
  }

  @Test
  void openCoilInParallelLeavesTheOtherAndAShortedOneIsALink() {
    Coil coil = new Coil(OHM, BL);
    Driver driver = new Driver(MASS, 5e-4, LOSS, AREA, List.of(coil, coil), Inductance.NONE, 0);
    Box parallel =
        Box.freeAir(driver)
            .withTerminals(Wiring.parallel(Wiring.coil("driver", 1), Wiring.coil("driver", 2)));
    Box open = parallel.withCoil("driver", 2, Wiring.CoilState.OPEN);
    Box shorted = Box.freeAir(driver).withCoil("driver", 2, Wiring.CoilState.SHORTED);
    for (double hz = 8; hz < 400; hz *= 1.2) {
      double w = 2 * Math.PI * hz;
      Complex cone = new Complex(LOSS, w * MASS - 1 / (w * 5e-4));
      Complex one = cone.reciprocal().multiply(BL * BL).add(OHM);
      assertSame(one, new Impedance(open).at(hz), 1e-9, hz + " Hz open");
      Complex braked = cone.add(BL * BL / OHM).reciprocal().multiply(BL * BL).add(OHM + 1e-3);
      assertSame(braked, new Impedance(shorted).at(hz), 1e-9, hz + " Hz shorted");
    }
  }
}
