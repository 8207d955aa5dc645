package conewise.station.shift;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.LongSupplier;

/**
 * Notices that the computer slept. Some systems' running clock stands still in a sleep and their
 * wall clock does not (Linux, macOS): then the two part. On others both go on (Windows): then a
 * wait of a tenth of a second took an hour. A wall clock that is set on by more than {@link
 * #SHORTEST} is taken for a sleep too, since nothing tells the two apart; one that is set back, or
 * on by less, is not. Summer time is no matter: an instant has none. Used by one thread.
 */
final class SleepWatch {
  /** What is shorter is no sleep: a busy machine, a clock that is put right by some seconds. */
  static final Duration SHORTEST = Duration.ofSeconds(30);

  private final Clock wall;
  private final LongSupplier runningNanos;
  private Instant lastAt;
  private long lastNanos;
  private Optional<Slept> found = Optional.empty();
  private final AtomicInteger sleeps = new AtomicInteger();

  /**
   * A watch that begins now.
   *
   * @param wall the wall clock
   * @param runningNanos a clock that nobody sets, in nanoseconds from an arbitrary start
   */
  SleepWatch(Clock wall, LongSupplier runningNanos) {
    this.wall = wall;
    this.runningNanos = runningNanos;
    lastAt = wall.instant();
    lastNanos = runningNanos.getAsLong();
  }

  /** To be called some times a second, after nothing but a short wait or a short piece of work. */
  void look() {
    look(true);
  }

  /** The same after work that may have taken long by itself: only the clocks' parting tells. */
  void lookAfterWork() {
    look(false);
  }

  private void look(boolean shortWait) {
    Instant now = wall.instant();
    long nanos = runningNanos.getAsLong();
    Duration byWall = Duration.between(lastAt, now);
    Duration running = Duration.ofNanos(nanos - lastNanos);
    if (isSleep(byWall.minus(running))) {
      add(byWall);
    } else if (shortWait && isSleep(running)) {
      add(running);
    }
    lastAt = now;
    lastNanos = nanos;
  }

  private static boolean isSleep(Duration length) {
    return length.compareTo(SHORTEST) > 0;
  }

  private void add(Duration length) {
    Slept slept = new Slept(length);
    sleeps.incrementAndGet();
    found = Optional.of(found.map(before -> before.then(slept)).orElse(slept));
  }

  /** How many sleeps were found so far. May be asked by any thread. */
  int sleeps() {
    return sleeps.get();
  }

  /** Whether there was a sleep that nobody has taken yet. */
  boolean slept() {
    return found.isPresent();
  }

  /** The sleep since the last time that one was taken, if there was any. */
  Optional<Slept> take() {
    Optional<Slept> taken = found;
    found = Optional.empty();
    return taken;
  }
}
