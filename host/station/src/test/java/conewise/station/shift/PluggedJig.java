package conewise.station.shift;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.protocol.JigIdentity;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.time.ZonedDateTime;

/** A virtual jig whose plug can be pulled, and whose foot switch can be trodden on. */
final class PluggedJig implements JigSource {
  private volatile World world = DemoWorld.HERON.load();
  private volatile boolean plugged = true;
  private volatile MemoryLink link;
  private volatile VirtualJig jig;

  void put(DemoWorld other) {
    world = other.load();
  }

  /** Nothing on the clips. */
  void putOpenClips() {
    world = world.with(Box.in(Air.ROOM).wired(new Wiring.OpenCircuit()));
  }

  void pull() {
    plugged = false;
    if (link != null) {
      link.unplug();
    }
  }

  void plug() {
    plugged = true;
  }

  void foot(boolean down) {
    jig.footContact(down);
  }

  @Override
  public JigClient connect() throws CommandFailure {
    if (!plugged) {
      throw new CommandFailure(ExitCode.NO_JIG, "No jig is plugged in.");
    }
    jig = new VirtualJig(world.start(), JigSetup.standard());
    link = new MemoryLink(jig);
    try {
      return JigClient.connect(link, JigListener.NONE);
    } catch (JigFaultException failed) {
      throw new CommandFailure(ExitCode.NO_JIG, failed.fault().sentence(), failed);
    }
  }

  @Override
  public Calibrated calibrated(JigIdentity identity, ZonedDateTime now) {
    return Calibrated.none();
  }
}
