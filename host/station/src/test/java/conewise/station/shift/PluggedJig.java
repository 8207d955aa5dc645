package conewise.station.shift;

import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.Converter;
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
import java.util.concurrent.atomic.AtomicInteger;

/** A virtual jig whose plug can be pulled, and whose foot switch can be trodden on. */
public final class PluggedJig implements JigSource {
  private static final double STANDARD_OHM = 10;

  private volatile World world = DemoWorld.HERON.load();
  private volatile boolean plugged = true;
  private volatile Calibrated calibrated = Calibrated.none();
  private final AtomicInteger meetings = new AtomicInteger();
  private volatile MemoryLink link;
  private volatile VirtualJig jig;

  /** Puts a box on the clips; the jig stays the same one. */
  public void put(DemoWorld other) {
    world = DemoWorld.HERON.load().with(other.load().box()).withSeed(other.load().seed());
  }

  /** Calibrates the jig with nothing, a bridge and a resistor of 10 ohm, 0.1 %. */
  public void calibrate() throws Exception {
    SweepSettings listening = SweepSettings.standard().listeningOnly();
    Outcome<Calibration> made =
        Calibration.of(
            "CAL-TEST",
            swept(new Wiring.OpenCircuit(), listening),
            swept(Wiring.ohm(0), listening),
            swept(Wiring.ohm(STANDARD_OHM), SweepSettings.standard()),
            STANDARD_OHM,
            OnePortCorrection.uncertaintyOfTolerance(STANDARD_OHM, 0.001));
    SweepSettings settings =
        SweepSettings.standard().with(((Outcome.Found<Calibration>) made).value());
    calibrated = new Calibrated(settings, "CAL-TEST, made before the shift", verdict -> verdict);
  }

  private static SweepResult swept(Wiring load, SweepSettings settings) throws Exception {
    World loaded = DemoWorld.HERON.load().with(Box.in(Air.ROOM).wired(load));
    try (JigClient client =
        JigClient.connect(
            new MemoryLink(
                new VirtualJig(loaded.start(), JigSetup.standard().withSerial("SHOP-1"))),
            JigListener.NONE)) {
      return (SweepResult) new QuickSweep(settings).run(client, SweepListener.NONE);
    }
  }

  /** Nothing on the clips. */
  void putOpenClips() {
    world = world.with(Box.in(Air.ROOM).wired(new Wiring.OpenCircuit()));
  }

  /** So many codes of noise, also at rest, as of loud sound that the cones take up. */
  public void noisy(double codes) {
    world = world.with(world.jig().with(new Converter(codes, 0)));
  }

  /** A clip that jumps some times a second. */
  public void jumping() {
    world = world.with(world.jig().with(new Contact(0.05, 1.5, 6)));
  }

  /** Pulls the plug, also in mid-sweep. */
  public void pull() {
    plugged = false;
    if (link != null) {
      link.unplug();
    }
  }

  /** Puts it back. */
  public void plug() {
    plugged = true;
  }

  /** How often it was met so far. */
  int meetings() {
    return meetings.get();
  }

  void foot(boolean down) {
    jig.footContact(down);
  }

  @Override
  public JigClient connect() throws CommandFailure {
    if (!plugged) {
      throw new CommandFailure(ExitCode.NO_JIG, "No jig is plugged in.");
    }
    jig = new VirtualJig(world.start(), JigSetup.standard().withSerial("SHOP-1"));
    link = new MemoryLink(jig);
    meetings.incrementAndGet();
    try {
      return JigClient.connect(link, JigListener.NONE);
    } catch (JigFaultException failed) {
      throw new CommandFailure(ExitCode.NO_JIG, failed.fault().sentence(), failed);
    }
  }

  @Override
  public Calibrated calibrated(JigIdentity identity, ZonedDateTime now) {
    return calibrated;
  }
}
