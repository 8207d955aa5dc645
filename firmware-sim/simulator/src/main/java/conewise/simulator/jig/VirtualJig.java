package conewise.simulator.jig;

import conewise.protocol.JigIdentity;
import conewise.protocol.LineReader;
import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigHardware;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A jig without a board: the whole of protocol/spec.md over an {@link AnalogWorld}, tick by tick.
 *
 * <p>In each tick the drive takes one code, the converter serves one channel, and the serial port
 * moves what its rate allows. Bytes go in by {@link #hear} and come out by {@link #takeSent}; time
 * passes in {@link #runTicks} only. The same seed of the world and the same bytes at the same ticks
 * give the same answers. Not for use by several threads at once.
 */
public final class VirtualJig {
  private static final int POINTS_MAX = 1024;

  /** 65 536 blocks of 14 frames: what fits the sequence numbers of the smallest blocks. */
  private static final int FRAMES_MAX = 917_504;

  private static final int SKIP_MAX = 1_000_000;
  private static final int DECIMATE_MAX = 256;

  private final AnalogWorld world;
  private final JigIdentity identity;
  private final SerialPort port;
  private final Keep keep;
  private final int midScale;
  private final long bootTicks;
  private Engine engine;
  private Conversation conversation;
  private String startCause = "";
  private long bootTicksLeft;
  private long elapsedTicks;

  /** Why a jig starts anew. */
  public enum StartCause {
    /** Power came. */
    POWER,
    /** The reset line was pulled, as opening a port does on many boards. */
    RESET,
    /** The supply sagged. */
    BROWN_OUT,
    /** The firmware hung. */
    WATCHDOG
  }

  /**
   * A jig that has just been powered: {@code ready} is the first line to come.
   *
   * @throws IllegalArgumentException if hardware and setup do not make a jig that can describe
   *     itself
   */
  public VirtualJig(AnalogWorld world, JigSetup setup) {
    JigHardware hardware = world.hardware();
    this.world = world;
    this.identity = identity(hardware, setup);
    this.midScale = hardware.midScale();
    this.port = new SerialPort(hardware.clockHz(), hardware.tickCycles(), setup.carriedBaud());
    this.keep = new Keep(setup.storeWorks(), setup.serial());
    this.bootTicks =
        hardware.clockHz() * setup.bootMilliseconds() / (hardware.tickCycles() * 1000L);
    restart(StartCause.POWER);
    conversation.greet(startCause);
  }

  private static JigIdentity identity(JigHardware hardware, JigSetup setup) {
    List<JigIdentity.Channel> channels =
        hardware.channels().stream()
            .map(
                channel ->
                    new JigIdentity.Channel(
                        channel.number(),
                        channel.name(),
                        channel.unit(),
                        channel.offsetCode(),
                        channel.perCode(),
                        channel.delayNanoseconds()))
            .toList();
    return new JigIdentity(
        new JigIdentity.Jig(setup.firmware(), setup.board(), setup.serial(), Optional.empty()),
        new JigIdentity.Clock(hardware.clockHz(), hardware.tickCycles()),
        new JigIdentity.Converter(hardware.converterBits(), hardware.converterCodes()),
        channels,
        new JigIdentity.Drive(hardware.levelMax(), hardware.voltPerLevel(), hardware.senseOhm()),
        new JigIdentity.Wave(POINTS_MAX, 8),
        new JigIdentity.RecordLimits(channels.size(), FRAMES_MAX, SKIP_MAX, DECIMATE_MAX),
        new JigIdentity.Link(
            setup.baud(),
            LineReader.REQUEST_MAX,
            LineReader.JIG_LINE_MAX,
            setup.silenceMilliseconds()),
        setup.fitted());
  }

  private void restart(StartCause cause) {
    boolean contact = engine != null && engine.foot.contact();
    port.reset();
    engine = new Engine(identity, midScale, port, contact);
    conversation = new Conversation(engine, port, keep);
    startCause = cause.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * Resets the jig: drive to mid-scale, everything but the stored ids forgotten. It is deaf and
   * dumb while it boots, then says {@code ready}.
   */
  public void reboot(StartCause cause) {
    restart(cause);
    bootTicksLeft = bootTicks;
    if (bootTicks == 0) {
      conversation.greet(startCause);
    }
  }

  /** Lets time pass. */
  public void runTicks(long ticks) {
    for (long i = 0; i < ticks; i++) {
      tick();
    }
  }

  private void tick() {
    elapsedTicks++;
    if (bootTicksLeft > 0) {
      bootTicksLeft--;
      world.tick(midScale);
      port.reset();
      if (bootTicksLeft == 0) {
        conversation.greet(startCause);
      }
      return;
    }
    engine.tick(world);
    port.tick();
    conversation.tick();
  }

  /** The host puts a byte on its end of the line; it arrives as fast as the line carries. */
  public void hear(byte octet) {
    port.hear(octet);
  }

  /**
   * Moves up to {@code buffer.length} bytes that have left the jig into a buffer; returns how many.
   */
  public int takeSent(byte[] buffer) {
    return port.left().drainTo(buffer);
  }

  /** Bytes that have left the jig and were not taken yet. */
  public int sentWaiting() {
    return port.left().size();
  }

  /** Whether nothing is under way: no record, no request, no answer. A wave may play. */
  public boolean idle() {
    return bootTicksLeft == 0 && !engine.recorder.runs() && conversation.quiet() && port.quiet();
  }

  /**
   * Time that the host could not have spoken in does not count towards the halt for silence: for a
   * jig that runs ahead of its host's clock.
   */
  public void excuseSilence(long ticks) {
    engine.excuseSilence(ticks);
  }

  /** Closes or opens the contact of the foot switch, bounces included. */
  public void footContact(boolean closed) {
    engine.foot.contact(closed);
  }

  /**
   * What a lamp does: on, off or blink.
   *
   * @param name pass, fail or busy
   */
  public String lamp(String name) {
    return engine.panel.lamp(name);
  }

  /** Whether the buzzer sounds. */
  public boolean buzzes() {
    return engine.panel.buzzes();
  }

  /** Ticks since the jig was made, resets included. */
  public long elapsedTicks() {
    return elapsedTicks;
  }

  /** Bytes that have left since the jig was made. */
  public long sentBytes() {
    return port.sentBytes();
  }

  /** What the jig says of itself, but for the stored ids. */
  public JigIdentity identity() {
    return identity;
  }
}
