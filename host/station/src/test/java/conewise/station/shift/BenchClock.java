package conewise.station.shift;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A wall clock that begins on a morning, runs by itself, and that somebody may set on. */
public final class BenchClock extends Clock {
  private final long began = System.nanoTime();
  private volatile Instant start = Instant.parse("2026-11-26T07:00:00Z");

  @Override
  public Instant instant() {
    return start.plusNanos(System.nanoTime() - began);
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    return this;
  }

  /** As the wall clock of a computer stands after a sleep in which its running clock stood. */
  public void passes(Duration time) {
    start = start.plus(time);
  }
}
