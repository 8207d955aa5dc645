package conewise.simulator.link;

import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Set;

/**
 * The host's end of a virtual jig in the same program, in simulated time: waiting and writing let
 * the jig run, nothing sleeps, and a run is the same each time. For use by one thread.
 */
public final class MemoryLink implements ByteLink {
  /** How late {@link Fault#DELAY} makes a byte. */
  static final int DELAY_MILLISECONDS = 20;

  private static final int PAUSE_MILLISECONDS = 2;
  private static final int BITS_PER_BYTE = 10;

  /** About half a millisecond of a jig with 15 625 ticks a second. */
  private static final int TICKS_BETWEEN_LOOKS = 8;

  private final VirtualJig jig;
  private final FaultyPath toJig;
  private final FaultyPath toHost;
  private final int ticksBetweenLooks;
  private final boolean sound;
  private final long clockHz;
  private final long tickCycles;
  private final Deque<Arrival> arrivals = new ArrayDeque<>();
  private final byte[] chunk = new byte[4096];
  private long writeCredit;
  private long releaseTick;
  private State state = State.OPEN;

  private enum State {
    OPEN,
    FROZEN,
    UNPLUGGED,
    CLOSED
  }

  private record Arrival(byte octet, long releaseTick, boolean endsRead) {}

  /** A sound link. */
  public MemoryLink(VirtualJig jig) {
    this(jig, LinkFaults.none());
  }

  /** A link on which that goes wrong which the plan says. */
  public MemoryLink(VirtualJig jig, LinkFaults faults) {
    this.jig = jig;
    toJig = new FaultyPath(faults, Direction.TO_JIG);
    toHost = new FaultyPath(faults, Direction.TO_HOST);
    sound = faults.isNone();
    // A fault at a certain byte must strike before the bytes of the next tick leave.
    ticksBetweenLooks = sound ? TICKS_BETWEEN_LOOKS : 1;
    clockHz = jig.identity().clock().clockHz();
    tickCycles = jig.identity().clock().tickCycles();
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    requirePlugged();
    for (byte octet : bytes) {
      if (sound) {
        jig.hear(octet);
      } else if (state == State.OPEN) {
        writeStruck(octet, toJig.next());
      }
      spendByteTime();
      requirePlugged();
    }
  }

  private void writeStruck(byte octet, Set<Fault> faults) {
    if (strikesLink(faults) || faults.contains(Fault.DROP)) {
      return;
    }
    if (faults.contains(Fault.DELAY)) {
      run(ticks(DELAY_MILLISECONDS));
    }
    byte sent = faults.contains(Fault.FLIP) ? toJig.flip(octet) : octet;
    jig.hear(sent);
    if (faults.contains(Fault.DUPLICATE)) {
      jig.hear(sent);
    }
    if (faults.contains(Fault.SPLIT)) {
      run(ticks(PAUSE_MILLISECONDS));
    }
  }

  /** Whether a fault of the whole link strikes instead of letting the byte through. */
  private boolean strikesLink(Set<Fault> faults) {
    if (faults.contains(Fault.UNPLUG)) {
      state = State.UNPLUGGED;
    } else if (faults.contains(Fault.FREEZE)) {
      state = State.FROZEN;
    } else if (faults.contains(Fault.REBOOT)) {
      jig.reboot(VirtualJig.StartCause.RESET);
    } else {
      return false;
    }
    return true;
  }

  /** Ten bits pass on the line, in whole ticks with the rest carried over. */
  private void spendByteTime() {
    long perTick = tickCycles * jig.identity().link().baud();
    writeCredit += clockHz * BITS_PER_BYTE;
    long whole = writeCredit / perTick;
    writeCredit -= whole * perTick;
    run(whole);
  }

  private void run(long ticks) {
    for (long left = ticks; left > 0; left -= ticksBetweenLooks) {
      jig.runTicks(Math.min(left, ticksBetweenLooks));
      collect();
    }
  }

  private long ticks(long milliseconds) {
    return Math.max(1, milliseconds * clockHz / (tickCycles * 1000));
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    long deadline = jig.elapsedTicks() + ticksOf(timeout);
    while (true) {
      collect();
      int count = take(buffer);
      if (count > 0) {
        return count;
      }
      requirePlugged();
      long left = deadline - jig.elapsedTicks();
      if (left <= 0) {
        return 0;
      }
      run(Math.min(left, ticksBetweenLooks));
    }
  }

  /** Whole ticks that last at least as long. */
  private long ticksOf(Duration timeout) {
    double ticks = timeout.toNanos() * 1e-9 * clockHz / tickCycles;
    return (long) Math.ceil(ticks - 1e-6);
  }

  /** Takes what has left the jig through the faults of the way to the host. */
  private void collect() {
    while (jig.sentWaiting() > 0) {
      int count = jig.takeSent(chunk);
      for (int i = 0; i < count && state != State.CLOSED; i++) {
        if (sound) {
          arrivals.add(new Arrival(chunk[i], 0, false));
        } else if (state == State.OPEN && !arriveStruck(chunk[i], toHost.next())) {
          // What left with the byte that a reset struck is lost with it.
          break;
        }
      }
    }
  }

  /** False when the link was struck. */
  private boolean arriveStruck(byte octet, Set<Fault> faults) {
    if (strikesLink(faults)) {
      return false;
    }
    if (faults.contains(Fault.DROP)) {
      return true;
    }
    if (faults.contains(Fault.DELAY)) {
      releaseTick = Math.max(releaseTick, jig.elapsedTicks() + ticks(DELAY_MILLISECONDS));
    }
    byte come = faults.contains(Fault.FLIP) ? toHost.flip(octet) : octet;
    arrivals.add(new Arrival(come, releaseTick, faults.contains(Fault.SPLIT)));
    if (faults.contains(Fault.DUPLICATE)) {
      arrivals.add(new Arrival(come, releaseTick, faults.contains(Fault.SPLIT)));
    }
    return true;
  }

  private int take(byte[] buffer) {
    int count = 0;
    long now = jig.elapsedTicks();
    while (count < buffer.length && !arrivals.isEmpty() && arrivals.peek().releaseTick() <= now) {
      Arrival arrival = arrivals.remove();
      buffer[count] = arrival.octet();
      count++;
      if (arrival.endsRead()) {
        break;
      }
    }
    return count;
  }

  private void requirePlugged() throws LinkLostException {
    if (state == State.UNPLUGGED) {
      throw new LinkLostException("The cable of the " + description() + " was pulled.");
    }
    if (state == State.CLOSED) {
      throw new LinkLostException("The link to the " + description() + " was closed.");
    }
  }

  /** Pulls the cable: bytes that have arrived can be read, then every call fails. */
  public void unplug() {
    collect();
    state = State.UNPLUGGED;
  }

  @Override
  public long nanoTime() {
    long cycles = jig.elapsedTicks() * tickCycles;
    return cycles / clockHz * 1_000_000_000L + cycles % clockHz * 1_000_000_000L / clockHz;
  }

  @Override
  public String description() {
    return "virtual jig";
  }

  @Override
  public void close() {
    state = State.CLOSED;
    arrivals.clear();
  }
}
