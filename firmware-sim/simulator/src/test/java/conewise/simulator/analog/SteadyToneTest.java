package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Wiring;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** What the converter's codes say, tone by tone, as a host would read them. */
class SteadyToneTest {
  private static final JigHardware NOMINAL = JigHardware.nominal();
  private static final double TICK = NOMINAL.tickSeconds();

  /** Amplitudes of voltage and current by correlation over whole periods at their own instants. */
  private static Complex[] correlate(
      AnalogWorld world, double hz, int level, int settle, int ticks) {
    Complex[] sum = {Complex.ZERO, Complex.ZERO};
    for (int k = 1; k <= settle + ticks; k++) {
      double drive = Math.sin(2 * Math.PI * hz * (k - 1) * TICK);
      world.tick(NOMINAL.midScale() + (int) Math.rint(level * drive));
      int channel = k % 2;
      double code = world.convert(channel);
      if (k > settle) {
        double angle = -2 * Math.PI * hz * k * TICK;
        double unit = NOMINAL.channels().get(channel).perCode() * 4 / ticks;
        sum[channel] =
            sum[channel].add(
                new Complex(Math.cos(angle), Math.sin(angle)).multiply((code - 512) * unit));
      }
    }
    return sum;
  }

  private static Driver driver() {
    return new Driver(
        0.06, 4e-4, 1.6, 0.035, List.of(new Coil(3.4, 8)), Inductance.lossy(0.01, 0.7), 0);
  }

  @Test
  void samplesOfAVentedBoxGiveTheImpedanceOfItsEquations() {
    Box box =
        Box.in(Air.ROOM)
            .space("main", 45)
            .driver("driver", driver(), "main")
            .vent("port", "main", 36, 40)
            .wired(Wiring.coil("driver", 1));
    JigImperfections jig = JigImperfections.ideal().with(new Converter(0.4, 0));
    Impedance exact = new Impedance(box);
    long seed = 20251;
    for (int hz : new int[] {10, 20, 25, 36, 50, 70, 125, 250, 400}) {
      // Two seconds settle the slowest resonance (Q below 10 at 20 Hz) below 1e-5. A whole number
      // of periods lies in each second, so that nothing leaks from one tone into another.
      Complex[] read = correlate(new VirtualAnalog(box, jig, seed), hz, 500, 31250, 31250);
      Complex z = read[0].divide(read[1]);
      // 0.4 codes of noise on 15 625 samples a channel: 0.0045 codes of an amplitude above 25.
      assertEquals(
          0, z.subtract(exact.at(hz)).abs() / exact.at(hz).abs(), 1e-3, hz + " Hz, seed " + seed);
    }
  }

  @Test
  void unequalFiltersAndGainsMultiplyTheImpedanceByTheirRatio() {
    JigImperfections.Amplifier voltage = new JigImperfections.Amplifier(1.03, 2, 1600);
    JigImperfections.Amplifier current = new JigImperfections.Amplifier(0.98, -1, 1400);
    JigImperfections jig =
        JigImperfections.ideal()
            .with(new Converter(0.4, 0))
            .withAmplifiers(voltage, current)
            .withSenseOhm(10.2);
    Complex[] read =
        correlate(new VirtualAnalog(Box.load(Wiring.ohm(8)), jig, 5), 200, 500, 1000, 31250);
    // One first-order pole each: 1 / (1 + j f / corner); the sense resistor reads 2 % high.
    Complex expected =
        new Complex(8 * 1.03 / (0.98 * 1.02))
            .multiply(new Complex(1, 200 / 1400.0))
            .divide(new Complex(1, 200 / 1600.0));
    assertEquals(0, read[0].divide(read[1]).subtract(expected).abs() / 8, 1e-3, "seed 5");
  }

  @Test
  void humInTheLeadsDrivesItsCurrentThroughSenseResistorAndBox() {
    JigImperfections jig =
        JigImperfections.ideal().with(new Converter(0.4, 0)).with(new Hum(50, 0.1, 0));
    Complex[] read =
        correlate(new VirtualAnalog(Box.load(Wiring.ohm(6)), jig, 9), 50, 0, 1000, 31250);
    double filter = 1 / Math.hypot(1, 50 / 1500.0);
    assertEquals(0.1 / 16 * filter, read[1].abs(), 2e-3 * 0.1 / 16, "seed 9");
    assertEquals(0.1 / 16 * 10 * filter, read[0].abs(), 2e-3 * 0.1 / 1.6, "seed 9");
  }

  @Test
  void humInjectedAtTheTerminalsIsSharedByBoxAndSenseResistor() {
    JigImperfections jig =
        JigImperfections.ideal().with(new Converter(0.4, 0)).with(new Hum(60, 0, 0.001));
    Complex[] read =
        correlate(new VirtualAnalog(Box.load(Wiring.ohm(10)), jig, 9), 60, 0, 1000, 31250);
    double filter = 1 / Math.hypot(1, 60 / 1500.0);
    // Half a milliampere goes each way; the converter sees 0.5 mA as three codes.
    assertEquals(0.0005 * filter, read[1].abs(), 0.0005 * 5e-3, "seed 9");
  }

  @Test
  void looseClipMovesBetweenResistancesThatStayForAWhile() {
    JigImperfections jig = JigImperfections.ideal().with(new Contact(0.5, 10, 20));
    AnalogWorld world = new VirtualAnalog(Box.load(Wiring.ohm(8)), jig, 77);
    java.util.Map<Long, Integer> seen = new java.util.TreeMap<>();
    double volt = 0;
    for (int k = 0; k < 31250; k++) {
      world.tick(1000);
      if (k % 2 == 0) {
        volt = (world.convert(0) - 512) * NOMINAL.channels().get(0).perCode();
      } else {
        double ampere = (world.convert(1) - 512) * NOMINAL.channels().get(1).perCode();
        seen.merge(Math.round(volt / ampere * 2), 1, Integer::sum);
      }
    }
    // 8.5, 11.5 and 18.5 ohm in halves of an ohm; filters pass between them within some ticks.
    int held = seen.getOrDefault(17L, 0) + seen.getOrDefault(23L, 0) + seen.getOrDefault(37L, 0);
    assertTrue(held > 0.9 * 15625, "seed 77: " + seen);
    for (long each : new long[] {17, 23, 37}) {
      assertTrue(seen.getOrDefault(each, 0) > 500, "seed 77, " + each / 2.0 + " ohm: " + seen);
    }
  }

  @Test
  void microphoneHearsWhichWayAConeSetsOut() {
    Box good =
        Box.in(Air.ROOM)
            .space("main", 30)
            .driver("driver", driver(), "main")
            .wired(Wiring.coil("driver", 1));
    assertTrue(firstSound(good) > 5, "a good cone compresses first: " + firstSound(good));
    assertTrue(
        firstSound(good.withDriverReversed("driver")) < -5,
        "a reversed cone rarefies first: " + firstSound(good.withDriverReversed("driver")));
  }

  private static int firstSound(Box box) {
    AnalogWorld world =
        new VirtualAnalog(box, JigImperfections.ideal().with(new Microphone(0.1, 1)), 1);
    int largest = 0;
    for (int k = 0; k < 60; k++) {
      world.tick(1000);
      int code = world.convert(2) - 512;
      largest = Math.abs(code) > Math.abs(largest) ? code : largest;
    }
    return largest;
  }

  @Test
  void soundAboveResonanceIsThatOfAMassDrivenMonopole() {
    Box box =
        Box.in(Air.ROOM)
            .space("main", 200)
            .driver("driver", driver(), "main")
            .wired(Wiring.coil("driver", 1));
    Complex[] read =
        conewise.simulator.dynamics.Response.of(
            VirtualAnalog.model(box, JigImperfections.ideal().with(new Microphone(2, 1))), 1000);
    // Far above resonance Newton's law gives a = Bl i / M; monopole p = rho S a / (4 pi r). The
    // suspension takes (36/1000)^2 = 0.1 % of it.
    double expected = 1.204 * 0.035 * 8 / 0.06 / (4 * Math.PI * 2);
    assertEquals(expected, read[2].divide(read[1]).abs(), 0.003 * expected);
  }
}
