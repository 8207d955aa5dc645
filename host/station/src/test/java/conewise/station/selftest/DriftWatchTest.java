package conewise.station.selftest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class DriftWatchTest {
  private static final ZonedDateTime NOON = ZonedDateTime.parse("2026-11-20T12:00:00Z");

  private static CheckReading read(int day, String resistor, double ohm, String calibration) {
    return new CheckReading(
        NOON.plusDays(day),
        resistor,
        10,
        0.001,
        ohm,
        0.001,
        0.0006,
        Optional.of(calibration),
        Optional.of(20.0));
  }

  private static DriftWatch watch(CheckReading... readings) {
    return DriftWatch.of(List.of(readings), "CAL-2", 0.01, NOON.plusDays(10));
  }

  @Test
  void theYoungestGoodReadingIsRemembered() {
    DriftWatch watch = watch(read(1, "A", 10.01, "CAL-2"), read(3, "A", 10.02, "CAL-2"));
    assertEquals(NOON.plusDays(3), watch.good().orElseThrow().taken());
    assertEquals(Optional.empty(), watch.drifted());
    assertEquals("check resistor good on 23 Nov 2026", watch.words().orElseThrow());
  }

  @Test
  void aResistorThatDriftedSpeaksUntilItIsReadGoodAgainWhateverAnotherSays() {
    CheckReading drifted = read(2, "A", 10.3, "CAL-2");
    DriftWatch other = watch(read(1, "A", 10.0, "CAL-2"), drifted, read(3, "B", 10.0, "CAL-2"));
    assertEquals(drifted, other.drifted().orElseThrow().reading());
    assertEquals(
        "the check resistor A read 10.30 ohm on 22 Nov 2026, 3.0 % off 10.00 ohm; at most 1.0 %"
            + " is allowed",
        other.drifted().orElseThrow().words());
    DriftWatch again = watch(read(1, "A", 10.0, "CAL-2"), drifted, read(3, "A", 10.0, "CAL-2"));
    assertEquals(Optional.empty(), again.drifted());
  }

  @Test
  void whatWasReadUnderAnotherCalibrationOrInTheFutureIsNoWitness() {
    DriftWatch watch = watch(read(1, "A", 10.3, "CAL-1"), read(20, "B", 10.0, "CAL-2"));
    assertEquals(DriftWatch.nothing(), watch);
    assertTrue(watch.words().isEmpty());
  }

  @Test
  void anUndecidedReadingNeitherProvesNorContradicts() {
    assertEquals(DriftWatch.nothing(), watch(read(1, "A", 10.09, "CAL-2")));
  }
}
