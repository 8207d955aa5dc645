package conewise.station.pop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.measuring.StopRequest;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import org.junit.jupiter.api.Test;

class StepsTest {
  private static CommandFailure failure(LinkFaults faults) throws Exception {
    VirtualJig jig = new VirtualJig(DemoWorld.PLOVER.load().start(), JigSetup.standard());
    PrintStream nowhere = new PrintStream(new ByteArrayOutputStream());
    Screen screen = new Screen(nowhere, nowhere, true, false, false);
    try (StopRequest stop = StopRequest.listen();
        ProgressLine progress = ProgressLine.silent(screen);
        JigClient client = JigClient.connect(new MemoryLink(jig, faults), JigListener.NONE)) {
      Steps steps = new Steps(client, progress, stop);
      return assertThrows(CommandFailure.class, () -> steps.heard("left"));
    }
  }

  @Test
  void jigPulledOutInTheMiddleOfAStepIsNoJigAndKeepsNothing() throws Exception {
    CommandFailure pulled = failure(LinkFaults.none().at(Direction.TO_HOST, Fault.UNPLUG, 30_000));
    assertEquals(ExitCode.NO_JIG, pulled.exitCode());
    assertTrue(pulled.getMessage().contains("nothing was kept"), pulled.getMessage());
    assertFalse(pulled.getMessage().contains("what was measured is kept"), pulled.getMessage());
  }

  @Test
  void jigThatRestartsInTheMiddleOfAStepIsSaid() throws Exception {
    CommandFailure restarted =
        failure(LinkFaults.none().at(Direction.TO_HOST, Fault.REBOOT, 30_000));
    assertEquals(ExitCode.NOT_JUDGED, restarted.exitCode());
    assertTrue(restarted.getMessage().contains("restarted"), restarted.getMessage());
  }
}
