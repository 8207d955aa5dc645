package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.polarity.FirstHalfCycle;
import conewise.analysis.polarity.HeardSteps;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.step.StepDrive;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.Microphone;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The steps of the pop test through the real firmware: three channels, a table, a microphone. */
class EmulatedStepTest {
  @TempDir private Path folder;

  @BeforeEach
  void requireBoard() throws Exception {
    EmulatedBoard.require();
  }

  @Test
  void firmwareHearsARightAndAReversedConeAsTheVirtualJigDoes() throws Exception {
    World drawn = DemoWorld.HERON_DRIVER_REVERSED.load();
    // The world's truth: the right driver is reversed.
    agree(drawn, "left", true);
    agree(drawn, "right", false);
  }

  private void agree(World drawn, String driver, boolean rises) throws Exception {
    Microphone before = new Microphone(0.3, 1).coupledFrom(10).before(driver, 0.02);
    World world = drawn.with(JigImperfections.nominal().with(before));
    HeardSteps virtual;
    try (JigClient client =
        JigClient.connect(
            new MemoryLink(new VirtualJig(world.start(), JigSetup.standard())), JigListener.NONE)) {
      virtual = heard(client);
    }
    HeardSteps emulated;
    try (EmulatedBoard board = EmulatedBoard.start(folder, world, EmulatedBoard.Pace.BRISK);
        JigClient client = board.connect()) {
      emulated = heard(client);
    }
    assertEquals(rises, sure(virtual).rises(), driver);
    assertEquals(rises, sure(emulated).rises(), driver);
    // In codes, since the board states another unit of its third input. Some 70 at the peak: 2
    // codes
    // of noise and steps, and a peak between two samples.
    double peak = peak(virtual);
    assertEquals(peak, peak(emulated), 0.05 * peak, driver);
  }

  private static HeardSteps heard(JigClient client) throws JigFaultException {
    return new StepDrive(client, (frames, of) -> true).heard().heard().orElseThrow();
  }

  private static FirstHalfCycle sure(HeardSteps record) {
    Outcome<FirstHalfCycle> heard = FirstHalfCycle.of(record);
    assertTrue(
        heard instanceof Found<FirstHalfCycle> found && found.value().isSure(), heard::toString);
    return ((Found<FirstHalfCycle>) heard).value();
  }

  private static double peak(HeardSteps record) {
    return Arrays.stream(record.soundPascal().values()).map(Math::abs).max().orElseThrow()
        / record.pascalPerCode();
  }
}
