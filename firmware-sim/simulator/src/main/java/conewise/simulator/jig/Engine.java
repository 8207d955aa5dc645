package conewise.simulator.jig;

import conewise.protocol.Fields;
import conewise.protocol.JigIdentity;
import conewise.protocol.Pushed;
import conewise.protocol.RecordShape;
import conewise.simulator.analog.AnalogWorld;
import java.util.Locale;

/**
 * All that a reset clears: the state of a jig between one start and the next, and what happens to
 * it in a tick. {@link Conversation} listens and answers.
 */
final class Engine {
  private static final long TICK_MASK = 0xFFFF_FFFFL;

  final JigIdentity identity;
  final WavePlayer player;
  final byte[] table;
  final Recorder recorder;
  final ClippingWatch watch;
  final FootSwitch foot;
  final Panel panel;
  final Outbox outbox;
  private final long silenceTicks;
  private int limit;
  private int turn;
  private long now;
  private long lastValidTick;
  private long overruns;
  private long halts;

  /** Why a jig halts by itself. */
  enum Cause {
    SILENCE,
    CLIPPING,
    REFUSED
  }

  Engine(JigIdentity identity, int midScale, SerialPort port, boolean footContact) {
    this.identity = identity;
    long ticksPerSecond = identity.clock().clockHz() / identity.clock().tickCycles();
    outbox = new Outbox(port);
    player = new WavePlayer(midScale);
    table = new byte[identity.wave().pointsMax()];
    recorder = new Recorder(outbox, identity.converter().codes());
    watch = new ClippingWatch(identity.converter().codes(), ticksPerSecond);
    foot = new FootSwitch(ticksPerSecond, footContact);
    panel = new Panel(ticksPerSecond);
    silenceTicks = ticksPerSecond * identity.link().silenceMilliseconds() / 1000;
    limit = identity.drive().levelMax();
  }

  /** One tick: drive, one conversion, and what follows from them. */
  void tick(AnalogWorld world) {
    world.tick(player.nextCode());
    now++;
    convert(world);
    if (watch.tick() && running()) {
      halt(Cause.CLIPPING);
    }
    if (running() && now - lastValidTick >= silenceTicks) {
      halt(Cause.SILENCE);
    }
    if (foot.tick() && identity.fitted().foot()) {
      push("foot", Fields.of("state", foot.down() ? "down" : "up"));
    }
    panel.tick();
    settleRecord();
    sayClipping();
  }

  private void convert(AnalogWorld world) {
    int channel = turn;
    int code = world.convert(channel);
    watch.see(channel, code);
    int channels = recorder.channelsInTurn();
    recorder.take(channel, code);
    turn++;
    if (turn >= channels) {
      turn = 0;
      watch.endFrame(player.plays());
    }
  }

  /** A record that has run out of samples or of room ends. */
  private void settleRecord() {
    if (recorder.state() == Recorder.State.OVERRUN) {
      overruns++;
      outbox.closeForBlocks();
      push("overrun", Fields.NONE.with("record", recorder.id()));
      endRecord(false);
    } else if (recorder.state() == Recorder.State.DRAINING) {
      endRecord(true);
    }
  }

  private void sayClipping() {
    int channel = player.plays() ? watch.channelToSay() : -1;
    if (channel >= 0) {
      push("clipping", Fields.NONE.with("channel", channel).with("frames", watch.say(channel)));
    }
  }

  private void endRecord(boolean complete) {
    outbox.closeForBlocks();
    outbox.say(recorder.end(complete).toPushed());
    turn = 0;
  }

  private void push(String event, Fields fields) {
    outbox.say(new Pushed(event, fields));
  }

  boolean running() {
    return player.plays() || recorder.runs();
  }

  /** Something starts: clipping is counted afresh if the jig was at rest, the halt sign goes. */
  void beforeStart() {
    if (!running()) {
      watch.restart();
    }
    panel.clearHaltSign();
  }

  /** Starts a record; channel 0 of its first frame is converted with the next tick. */
  void startRecord(RecordShape shape, int frames, int skip) {
    turn = 0;
    recorder.start(shape, frames, skip);
  }

  /** Wave and record end. */
  void stop() {
    if (recorder.runs()) {
      endRecord(false);
    }
    player.stop();
  }

  /** Wave and record end for a reason of the jig's own; nothing happens if nothing runs. */
  void halt(Cause cause) {
    if (!running()) {
      return;
    }
    stop();
    panel.showHaltSign();
    halts++;
    push("halted", Fields.of("cause", cause.name().toLowerCase(Locale.ROOT)));
  }

  /** A valid request came. */
  void breakSilence() {
    lastValidTick = now;
  }

  /** Time that the host could not have spoken in does not count as silence. */
  void excuseSilence(long ticks) {
    lastValidTick += ticks;
  }

  int limit() {
    return limit;
  }

  void limit(int peak) {
    limit = peak;
  }

  /** A tick so many from the one whose drive code comes next, as 32 bits count them. */
  long tickNumberIn(long ticks) {
    return (now + ticks) & TICK_MASK;
  }

  long overruns() {
    return overruns;
  }

  long halts() {
    return halts;
  }
}
