package conewise.station.shift;

import conewise.jig.client.JigClient;
import conewise.protocol.JigIdentity;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.Worlds;
import java.time.ZonedDateTime;

/** A virtual jig on which the box can be exchanged, as a person does on a bench. */
public final class VirtualSource implements JigSource {
  private final JigSource settings;
  private final ProgressLine silent;
  private volatile String name;
  private volatile World world;

  /**
   * With a first box on the clips.
   *
   * @param name a built-in world, or a world file
   * @param settings how to sweep and with which calibration
   */
  public VirtualSource(String name, JigSource settings, ProgressLine silent) throws CommandFailure {
    this.settings = settings;
    this.silent = silent;
    put(name);
  }

  /** Puts another box on the clips; the jig is to be met again. */
  public void put(String other) throws CommandFailure {
    world = Worlds.named(other);
    name = other;
  }

  /** The box on the clips. */
  public String now() {
    return name;
  }

  @Override
  public JigClient connect() throws CommandFailure {
    return new JigChoice.Virtual(world).connect(silent);
  }

  @Override
  public Calibrated calibrated(JigIdentity jig, ZonedDateTime now) throws CommandFailure {
    return settings.calibrated(jig, now);
  }
}
