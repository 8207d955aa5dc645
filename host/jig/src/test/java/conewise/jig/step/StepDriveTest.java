package conewise.jig.step;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.client.RecordProgress;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigHardware;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import conewise.simulator.link.MemoryLink;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class StepDriveTest {
  private static final RecordProgress GO_ON = (frames, of) -> true;
  private static final double TICK_SECONDS = 64e-6;

  /** Keeps every drive code that a jig gives out. */
  private static final class WatchedDrive implements AnalogWorld {
    private final AnalogWorld world =
        new VirtualAnalog(StepBoxes.apart().box(), JigImperfections.nominal(), 1);
    private final List<Integer> codes = new ArrayList<>();

    @Override
    public void tick(int driveCode) {
      codes.add(driveCode);
      world.tick(driveCode);
    }

    @Override
    public int convert(int channel) {
      return world.convert(channel);
    }

    @Override
    public JigHardware hardware() {
      return world.hardware();
    }

    /** The longest run of codes off mid-scale, in seconds. */
    double longestDriveSeconds() {
      int run = 0;
      int longest = 0;
      for (int code : codes) {
        run = code == 512 ? 0 : run + 1;
        longest = Math.max(longest, run);
      }
      return longest * TICK_SECONDS;
    }

    double secondsSinceDriven() {
      int last = codes.size() - 1;
      while (last >= 0 && codes.get(last) == 512) {
        last--;
      }
      return (codes.size() - 1 - last) * TICK_SECONDS;
    }
  }

  @Test
  void stepIsUpwardOnceShorterThanHalfASecondAndLeavesTheDriveSilent() throws Exception {
    WatchedDrive drive = new WatchedDrive();
    try (JigClient client = connect(drive, LinkFaults.none())) {
      new StepDrive(client, GO_ON).once();
      assertEquals(512, drive.codes.get(drive.codes.size() - 1));
    }
    assertEquals(0.3, drive.longestDriveSeconds(), 0.005);
    assertTrue(drive.codes.stream().allMatch(code -> code >= 512), "never downward");
    // 511 steps of 0.8 V / 511 around mid-scale.
    assertEquals(1023, drive.codes.stream().mapToInt(code -> code).max().orElseThrow());
  }

  private static JigClient connect(AnalogWorld world, LinkFaults faults) throws JigFaultException {
    VirtualJig jig = new VirtualJig(world, JigSetup.standard());
    return JigClient.connect(new MemoryLink(jig, faults), JigListener.NONE);
  }

  @Test
  void hostThatDiesAtAnyMomentLeavesNoStepLongerAndSilenceInSeconds() throws Exception {
    for (int blocks = 1; blocks < 180; blocks += 23) {
      WatchedDrive drive = new WatchedDrive();
      VirtualJig jig = new VirtualJig(drive, JigSetup.standard());
      MemoryLink link = new MemoryLink(jig);
      int cut = blocks;
      JigClient client = JigClient.connect(link, JigListener.NONE);
      JigFaultException lost =
          assertThrows(
              JigFaultException.class,
              () ->
                  new StepDrive(
                          client,
                          (frames, of) -> {
                            if (frames >= cut * 21) {
                              link.unplug();
                            }
                            return true;
                          })
                      .heard());
      assertTrue(lost.fault() instanceof JigFault.LinkLost, lost.fault().sentence());
      // The jig runs on without a host: 2 s of silence, and a step that was under way.
      jig.runTicks((long) (4 / TICK_SECONDS));
      assertEquals(0.3, drive.longestDriveSeconds(), 0.005, "cut after " + cut + " blocks");
      assertTrue(
          drive.secondsSinceDriven() > 1.5,
          "cut after " + cut + " blocks: " + drive.secondsSinceDriven() + " s of silence");
    }
  }

  @Test
  void linkPulledAtAnyByteEndsInAClearSentence() {
    int met = 0;
    for (long at = 0; at < 20_000; at += 997) {
      LinkFaults faults = LinkFaults.none().at(Direction.TO_HOST, Fault.UNPLUG, at);
      try (JigClient client = Workbench.of(StepBoxes.apart().box()).with(faults).connect()) {
        new StepDrive(client, GO_ON).heard();
      } catch (JigFaultException failed) {
        assertTrue(failed.fault().sentence().endsWith("."), failed.fault().sentence());
        met++;
      }
    }
    assertEquals(21, met);
  }

  @Test
  void damagedRecordIsTakenAgain() throws Exception {
    LinkFaults faults = LinkFaults.none().at(Direction.TO_HOST, Fault.FLIP, 9_000);
    try (JigClient client = Workbench.of(StepBoxes.apart().box()).with(faults).connect()) {
      assertTrue(new StepDrive(client, GO_ON).heard().heard().isPresent());
    }
  }

  @Test
  void wishToStopIsHeard() throws Exception {
    try (JigClient client = Workbench.of(StepBoxes.apart().box()).connect()) {
      JigFaultException stopped =
          assertThrows(
              JigFaultException.class, () -> new StepDrive(client, (frames, of) -> false).once());
      assertEquals(new JigFault.Cancelled(), stopped.fault());
    }
  }
}
