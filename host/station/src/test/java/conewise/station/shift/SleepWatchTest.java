package conewise.station.shift;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Which clocks, parted how far, are a sleep. */
class SleepWatchTest {
  private static final Duration TICK = Duration.ofMillis(100);

  private Instant wall = Instant.parse("2026-10-24T22:00:00Z");
  private long running = Long.MAX_VALUE - 5_000_000_000L;
  private final SleepWatch watch = new SleepWatch(new Wall(), () -> running);

  private final class Wall extends Clock {
    @Override
    public Instant instant() {
      return wall;
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      return this;
    }
  }

  private void pass(Duration byWall, Duration byRunning) {
    wall = wall.plus(byWall);
    running += byRunning.toNanos();
  }

  private Optional<String> seen() {
    watch.look();
    return watch.take().map(Slept::words);
  }

  @Test
  void aSleepInWhichTheRunningClockStoodStillIsAsLongAsTheWallClockSays() {
    pass(Duration.ofHours(13).plusMinutes(5), TICK);
    assertEquals(Optional.of("13 h 5 min"), seen());
    assertEquals(Optional.empty(), seen());
  }

  @Test
  void aSleepInWhichBothClocksWentOnIsSeenByTheLongWait() {
    pass(Duration.ofMinutes(4), Duration.ofMinutes(4));
    assertEquals(Optional.of("4 min"), seen());
  }

  @Test
  void aWholeShiftOfTicksIsNoSleepThoughTheRunningClockOverflows() {
    for (int tick = 0; tick < 8 * 36_000; tick++) {
      pass(TICK, TICK);
      watch.look();
    }
    assertFalse(watch.slept());
  }

  @Test
  void longWorkIsNoSleepButASleepWithinItIs() {
    pass(Duration.ofMinutes(3), Duration.ofMinutes(3));
    watch.lookAfterWork();
    assertEquals(Optional.empty(), seen());
    pass(Duration.ofMinutes(33), Duration.ofMinutes(3));
    watch.lookAfterWork();
    assertEquals(Optional.of("33 min"), seen());
  }

  @Test
  void aClockThatIsPutRightBySecondsOrSetBackIsNoSleep() {
    pass(SleepWatch.SHORTEST, TICK);
    assertEquals(Optional.empty(), seen());
    pass(Duration.ofHours(-9), TICK);
    assertEquals(Optional.empty(), seen());
    // Afterwards a sleep is seen as ever.
    pass(Duration.ofSeconds(45), TICK);
    assertEquals(Optional.of("45 s"), seen());
  }

  @Test
  void twoSleepsThatNobodyHasTakenYetAreOne() {
    pass(Duration.ofHours(1), TICK);
    watch.look();
    assertEquals(1, watch.sleeps());
    pass(Duration.ofHours(2), TICK);
    assertEquals(Optional.of("3 h"), seen());
    assertEquals(2, watch.sleeps());
  }

  @Test
  void noTimeAtAllIsNoSleep() {
    assertThrows(IllegalArgumentException.class, () -> new Slept(Duration.ZERO));
  }
}
