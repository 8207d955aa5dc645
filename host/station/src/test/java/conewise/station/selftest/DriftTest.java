package conewise.station.selftest;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.station.selftest.Drift.Word;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DriftTest {
  private static CheckReading reading(
      double ohm, double tolerance, double scale, String calibration, Double celsius) {
    return new CheckReading(
        ZonedDateTime.parse("2026-11-26T02:15:00Z"),
        "10 ohm",
        10,
        tolerance,
        ohm,
        0.003,
        scale,
        Optional.of(calibration),
        Optional.ofNullable(celsius));
  }

  /** The budget by hand: 2 sqrt(0.03^2 + 0.115^2 + 0.577^2 + 0.577^2 + 0.058^2) = 1.65 %. */
  @Test
  void theIntervalHoldsNoiseContactScaleToleranceAndWarmth() {
    Drift drift = Drift.of(reading(10.05, 0.01, 0.01 / Math.sqrt(3), "A", null), List.of(), 0.01);
    assertEquals(0.005, drift.againstValue().deviation(), 1e-12);
    assertEquals(0.01654, drift.againstValue().expanded(), 5e-5);
    assertEquals(Optional.empty(), drift.againstFirst());
    assertEquals(Word.UNDECIDED, drift.word());
  }

  /** Two readings by one scale: 2 sqrt(2 (0.03^2 + 0.115^2)) = 0.337 % at one temperature. */
  @Test
  void aScaleThatBothReadingsShareDropsOut() {
    CheckReading first = reading(10, 0.05, 0.03, "A", 20.0);
    Drift drift = Drift.of(reading(10.02, 0.05, 0.03, "A", 20.0), List.of(first), 0.01);
    assertEquals(0.00337, drift.againstFirst().orElseThrow().expanded(), 2e-5);
    assertEquals(Word.GOOD, drift.word());
    Drift other = Drift.of(reading(10.02, 0.05, 0.03, "B", 20.0), List.of(first), 0.01);
    // sqrt(0.337^2 + 4 (3^2 + 3^2)) = 8.49 %
    assertEquals(0.0849, other.againstFirst().orElseThrow().expanded(), 1e-4);
    assertEquals(Word.UNDECIDED, other.word());
  }

  @ParameterizedTest
  @CsvSource({
    "10.05, GOOD",
    "9.94, GOOD",
    "10.08, UNDECIDED",
    "10.12, UNDECIDED",
    "10.15, DRIFTED",
    "9.86, DRIFTED"
  })
  void aWordIsSaidOnlyForAWholeInterval(double ohm, Word word) {
    CheckReading first = reading(10, 0.05, 0.005, "A", null);
    assertEquals(word, Drift.of(reading(ohm, 0.05, 0.005, "A", null), List.of(first), 0.01).word());
  }

  @Test
  void slowDriftIsHeldAgainstTheFirstReadingAndNotTheLast() {
    List<CheckReading> slow =
        List.of(
            reading(10, 0.05, 0.005, "A", null),
            reading(10.06, 0.05, 0.005, "A", null),
            reading(10.12, 0.05, 0.005, "A", null));
    assertEquals(Word.DRIFTED, Drift.of(reading(10.18, 0.05, 0.005, "A", null), slow, 0.01).word());
  }

  @Test
  void aReadingFarFromItsValueHasDriftedWhateverTheFirstOneWas() {
    CheckReading first = reading(12, 0.001, 0.001, "A", null);
    assertEquals(
        Word.DRIFTED, Drift.of(reading(12, 0.001, 0.001, "A", null), List.of(first), 0.01).word());
  }

  @Test
  void anotherResistorsReadingsAreLeftAside() {
    CheckReading other =
        new CheckReading(
            ZonedDateTime.parse("2026-11-26T02:15:00Z"),
            "blue one",
            10,
            0.05,
            9,
            0,
            0,
            Optional.of("A"),
            Optional.empty());
    assertEquals(
        Optional.empty(),
        Drift.of(reading(10, 0.05, 0.005, "A", null), List.of(other), 0.01).againstFirst());
  }
}
