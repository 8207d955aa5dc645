package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.Converter;
import conewise.simulator.analog.Hum;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One world, one jig of parts drawn by a seed, one quick sweep by the application: through the real
 * firmware on the emulated board, and through the virtual jig. Noise is off on both sides, since
 * the two draw their own, and so is hum, which falls into step with neither; the converter's steps
 * and its bend stay. The seed is a fixed one unless another is given: on 2 ohm the converter's
 * steps alone let one tone in some tens of thousands differ by more than the limit.
 */
class AgreementTest {
  private static final double MODULUS_FRACTION = 0.005;
  private static final double PHASE_DEGREES = 0.5;

  private final long seed = Long.getLong("conewise.seed", 1);

  @TempDir private Path folder;

  @BeforeEach
  void requireBoard() throws Exception {
    EmulatedBoard.require();
  }

  @Test
  void aVentedBoxOfTwoDriversReadsTheSame() throws Exception {
    compare("vented, two drivers", DemoWorld.HERON.load());
  }

  @Test
  void aVentedBoxWithACoilReversedReadsTheSame() throws Exception {
    compare("vented, one coil reversed", DemoWorld.HERON_COIL_REVERSED.load());
  }

  @Test
  void aSealedBoxReadsTheSame() throws Exception {
    compare("sealed, two drivers", DemoWorld.WREN.load());
  }

  @Test
  void aResistorReadsTheSame() throws Exception {
    compare("8.2 ohm", DemoWorld.WREN.load().with(Box.load(new Wiring.Resistance(8.2))));
  }

  private void compare(String what, World drawn) throws Exception {
    JigImperfections parts =
        JigImperfections.typical(seed).with(new Converter(0, 0.3)).with(Hum.NONE);
    World world = drawn.with(parts).withSeed(seed);
    ImpedanceCurve virtual;
    try (JigClient client =
        JigClient.connect(
            new MemoryLink(new VirtualJig(world.start(), JigSetup.standard())), JigListener.NONE)) {
      virtual = sweep(client);
    }
    ImpedanceCurve emulated;
    try (EmulatedBoard board = EmulatedBoard.start(folder, world, EmulatedBoard.Pace.BRISK);
        JigClient client = board.connect()) {
      assertEquals("atmega328p-5v", client.identity().jig().board());
      emulated = sweep(client);
    }
    new Difference(tones(virtual), tones(emulated)).assertSmall(what + ", seed " + seed);
  }

  private static ImpedanceCurve sweep(JigClient client) {
    SweepOutcome outcome = new QuickSweep(SweepSettings.standard()).run(client, SweepListener.NONE);
    SweepResult result = assertInstanceOf(SweepResult.class, outcome, outcome::toString);
    Outcome<ImpedanceCurve> read = result.readCurve();
    assertTrue(read instanceof Outcome.Found<ImpedanceCurve>, read::toString);
    return ((Outcome.Found<ImpedanceCurve>) read).value();
  }

  private static List<ImpedancePoint> tones(ImpedanceCurve curve) {
    return curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
  }

  /** How far two readings of the same tones lie apart. */
  private record Difference(List<ImpedancePoint> virtual, List<ImpedancePoint> emulated) {

    void assertSmall(String what) {
      assertEquals(virtual.size(), emulated.size(), what);
      assertTrue(virtual.size() > 100, what);
      assertTrue(virtual.get(0).frequencyHz() < 11, what);
      assertTrue(virtual.get(virtual.size() - 1).frequencyHz() > 380, what);
      double[] moduli = new double[virtual.size()];
      double[] phases = new double[virtual.size()];
      for (int i = 0; i < moduli.length; i++) {
        ImpedancePoint here = virtual.get(i);
        ImpedancePoint there = emulated.get(i);
        assertEquals(here.frequencyHz(), there.frequencyHz(), 1e-9 * here.frequencyHz(), what);
        moduli[i] = Math.abs(there.modulusOhm() / here.modulusOhm() - 1);
        phases[i] = Math.abs(there.phaseDegrees() - here.phaseDegrees());
      }
      Arrays.sort(moduli);
      Arrays.sort(phases);
      int last = moduli.length - 1;
      String figures =
          String.format(
              Locale.ROOT,
              "emulated board against virtual jig, %s: %d tones, modulus median %.3f %%, worst"
                  + " %.3f %%; phase median %.3f, worst %.3f degree",
              what,
              moduli.length,
              100 * moduli[last / 2],
              100 * moduli[last],
              phases[last / 2],
              phases[last]);
      System.out.println(figures);
      assertTrue(moduli[last] <= MODULUS_FRACTION && phases[last] <= PHASE_DEGREES, figures);
    }
  }
}
