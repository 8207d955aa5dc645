package conewise.station.shift;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.time.ZonedDateTime;
import java.util.function.UnaryOperator;

/** A calibrated virtual jig whose line has faults from its next meeting on. */
final class TroubledJig implements JigSource {
  private final SweepSettings settings;
  private volatile World world;
  private volatile String serial = "SHOP-1";
  private volatile LinkFaults faults = LinkFaults.none();

  TroubledJig(World world, SweepSettings settings) {
    this.world = world;
    this.settings = settings;
  }

  /** Another box, and another line; the jig is to be met again. */
  void put(World other, LinkFaults line) {
    world = other;
    faults = line;
  }

  /** Another jig, from its next meeting on. */
  void exchange(String otherSerial) {
    serial = otherSerial;
  }

  @Override
  public JigClient connect() throws CommandFailure {
    MemoryLink link =
        new MemoryLink(
            new VirtualJig(world.start(), JigSetup.standard().withSerial(serial)), faults);
    try {
      return JigClient.connect(link, JigListener.NONE);
    } catch (JigFaultException failed) {
      link.close();
      throw new CommandFailure(ExitCode.NO_JIG, failed.fault().sentence(), failed);
    }
  }

  @Override
  public Calibrated calibrated(JigIdentity identity, ZonedDateTime now) {
    return new Calibrated(settings, "of the test", UnaryOperator.identity());
  }
}
