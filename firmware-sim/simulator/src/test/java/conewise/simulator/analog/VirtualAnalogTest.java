package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import org.junit.jupiter.api.Test;

/**
 * The analog side through its codes alone; expected values from Ohm's law and the wire's scales.
 */
class VirtualAnalogTest {
  private static final JigHardware NOMINAL = JigHardware.nominal();

  private static void run(AnalogWorld world, int code, int ticks) {
    for (int k = 0; k < ticks; k++) {
      world.tick(code);
    }
  }

  private static double value(AnalogWorld world, int channel) {
    JigHardware.Channel scale = NOMINAL.channels().get(channel);
    return (world.convert(channel) - scale.offsetCode()) * scale.perCode();
  }

  @Test
  void resistorDividesTheSteadyDriveWithTheSenseResistor() {
    AnalogWorld world = new VirtualAnalog(Box.load(Wiring.ohm(10)), JigImperfections.ideal(), 1);
    run(world, 512 + 500, 100);
    double bridge = 500 * 0.8 / 511;
    assertEquals(bridge / 2, value(world, 0), NOMINAL.channels().get(0).perCode() / 2);
    assertEquals(bridge / 20, value(world, 1), NOMINAL.channels().get(1).perCode() / 2);
  }

  @Test
  void openTerminalsShowTheBridgeAndNoCurrent() {
    AnalogWorld world =
        new VirtualAnalog(Box.load(new Wiring.OpenCircuit()), JigImperfections.ideal(), 1);
    run(world, 512 - 400, 100);
    assertEquals(-400 * 0.8 / 511, value(world, 0), NOMINAL.channels().get(0).perCode() / 2);
    assertEquals(512, world.convert(1));
  }

  @Test
  void shortedTerminalsShowTheWholeBridgeAsCurrent() {
    AnalogWorld world = new VirtualAnalog(Box.load(new Wiring.Link()), JigImperfections.ideal(), 1);
    run(world, 512 + 400, 100);
    assertEquals(400 * 0.8 / 511 / 10, value(world, 1), NOMINAL.channels().get(1).perCode() / 2);
    assertEquals(512, world.convert(0));
  }

  @Test
  void currentLimitHoldsTheBridgeBack() {
    AnalogWorld world =
        new VirtualAnalog(
            Box.load(Wiring.ohm(1)), JigImperfections.ideal().withLimits(4.5, 0.030), 1);
    run(world, 512 + 511, 200);
    assertEquals(0.030, value(world, 1), NOMINAL.channels().get(1).perCode());
  }

  @Test
  void voltageLimitClipsTheBridge() {
    AnalogWorld world =
        new VirtualAnalog(
            Box.load(Wiring.ohm(1000)), JigImperfections.ideal().withLimits(0.5, 1), 1);
    run(world, 0, 200);
    assertEquals(-0.5 * 1000 / 1010, value(world, 0), NOMINAL.channels().get(0).perCode());
  }

  @Test
  void foreignVoltageBeyondTheScaleSaturatesTheCodes() {
    AnalogWorld world =
        new VirtualAnalog(
            Box.load(Wiring.ohm(4)),
            JigImperfections.ideal().with(new Wiring.ForeignVoltage(0.1, 20, 0, 0)),
            1);
    run(world, 512, 100);
    assertEquals(1023, world.convert(0));
    assertEquals(0, world.convert(1));
  }

  @Test
  void sameSeedGivesTheSameCodesAndAnotherSeedOthers() {
    Box box = Box.load(Wiring.ohm(8));
    JigImperfections jig = JigImperfections.typical(3).with(new Contact(0.1, 2, 50));
    int[][] codes = new int[3][4000];
    for (int run = 0; run < 3; run++) {
      AnalogWorld world = new VirtualAnalog(box, jig, run == 2 ? 8 : 7);
      for (int k = 0; k < codes[run].length; k++) {
        world.tick(900);
        codes[run][k] = world.convert(k % 3);
      }
    }
    org.junit.jupiter.api.Assertions.assertArrayEquals(codes[0], codes[1]);
    assertTrue(!java.util.Arrays.equals(codes[0], codes[2]), "seeds 7 and 8");
  }

  @Test
  void codesOutsideTheirRangeAreRefusedWithTheirLimits() {
    AnalogWorld world = new VirtualAnalog(Box.load(Wiring.ohm(8)), JigImperfections.ideal(), 1);
    String drive =
        assertThrows(IllegalArgumentException.class, () -> world.tick(1024)).getMessage();
    assertTrue(drive.contains("1024") && drive.contains("1023"), drive);
    assertThrows(IllegalArgumentException.class, () -> world.convert(3));
  }
}
