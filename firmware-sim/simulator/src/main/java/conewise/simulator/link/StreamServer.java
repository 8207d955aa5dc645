package conewise.simulator.link;

import conewise.simulator.jig.VirtualJig;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Duration;
import java.util.function.LongSupplier;

/**
 * A virtual jig on a pair of streams: standard input and output, a socket, a pseudo-terminal. One
 * thread lets the jig run and two more move bytes, so that a stream that blocks stops nothing.
 *
 * <p>When the input ends, the jig still answers what it has heard, for at most {@value
 * #LAST_SECONDS} s of its own time.
 */
public final class StreamServer {
  /** The longest that the other side may take no bytes. */
  static final Duration STUCK_AFTER = Duration.ofSeconds(10);

  private static final int LAST_SECONDS = 10;
  private static final int REST_MILLISECONDS = 2;

  /** After a pause of the machine the jig does not run to catch up more than this. */
  private static final int CATCH_UP_MAX_SECONDS = 1;

  /** Free-running, the streams are looked at this often. */
  private static final int TICKS_BETWEEN_LOOKS = 256;

  private final VirtualJig jig;
  private final Pace pace;
  private final LongSupplier nanoClock;
  private final long ticksPerSecond;

  /** How the jig's time follows the clock on the wall. */
  public enum Pace {
    /** As a real jig does. */
    REAL_TIME,
    /**
     * As fast as the machine allows while there is something to do, with the clock on the wall when
     * there is not. Silence is measured on the wall.
     */
    FREE_RUNNING
  }

  /** Why serving ended. */
  public enum End {
    /** The input came to its end. */
    INPUT_ENDED,
    /** The serving thread was interrupted. */
    INTERRUPTED,
    /** The output was closed by the other side. */
    OTHER_SIDE_GONE,
    /** The other side took no bytes for ten seconds. */
    OTHER_SIDE_STUCK
  }

  /** A server by the machine's clock. */
  public StreamServer(VirtualJig jig, Pace pace) {
    this(jig, pace, System::nanoTime);
  }

  StreamServer(VirtualJig jig, Pace pace, LongSupplier nanoClock) {
    this.jig = jig;
    this.pace = pace;
    this.nanoClock = nanoClock;
    this.ticksPerSecond = jig.identity().clock().clockHz() / jig.identity().clock().tickCycles();
  }

  /**
   * Serves until the input ends, the thread is interrupted (its flag stays set), or the other side
   * is gone. Closes neither stream.
   */
  public End serve(InputStream in, OutputStream out) {
    try (StreamPump.Output output = new StreamPump.Output(out)) {
      StreamPump.Input input = new StreamPump.Input(in);
      long last = nanoClock.getAsLong();
      while (input.pour(jig, resting() ? REST_MILLISECONDS : 0)) {
        long now = nanoClock.getAsLong();
        // What does not make a whole tick stays on the clock for the next round.
        long due = ticksIn(now - last);
        last += due * 1_000_000_000L / ticksPerSecond;
        run(Math.min(due, CATCH_UP_MAX_SECONDS * ticksPerSecond));
        if (output.state() != StreamPump.Output.State.OPEN || !output.take(jig)) {
          return end(output);
        }
      }
      finish(output);
      return output.state() == StreamPump.Output.State.OPEN ? End.INPUT_ENDED : end(output);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return End.INTERRUPTED;
    }
  }

  private static End end(StreamPump.Output output) {
    return output.state() == StreamPump.Output.State.GONE
        ? End.OTHER_SIDE_GONE
        : End.OTHER_SIDE_STUCK;
  }

  private boolean resting() {
    return pace == Pace.REAL_TIME || jig.idle();
  }

  private long ticksIn(long nanoseconds) {
    return (long) (nanoseconds * 1e-9 * ticksPerSecond);
  }

  private void run(long due) {
    jig.runTicks(due);
    if (pace == Pace.FREE_RUNNING && !jig.idle()) {
      jig.excuseSilence(TICKS_BETWEEN_LOOKS);
      jig.runTicks(TICKS_BETWEEN_LOOKS);
    }
  }

  /** The last answers. */
  private void finish(StreamPump.Output output) throws InterruptedException {
    long left = LAST_SECONDS * ticksPerSecond;
    while (left > 0 && !jig.idle() && output.take(jig)) {
      jig.runTicks(TICKS_BETWEEN_LOOKS);
      left -= TICKS_BETWEEN_LOOKS;
    }
    output.take(jig);
  }
}
