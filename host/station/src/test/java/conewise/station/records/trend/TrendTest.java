package conewise.station.records.trend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.judgement.Decision;
import conewise.analysis.outcome.Outcome;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class TrendTest {
  private static final Instant MONDAY = Instant.parse("2026-11-23T08:00:00Z");

  /**
   * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, example of the flow rates of ten
   * batches: mean 50.81, mean moving range 1.8778, limits 45.8159 and 55.8041 (from memory).
   */
  @Test
  void theLimitsAreThoseOfTheHandbooksExample() {
    ControlChart chart =
        found(
            ControlChart.of(
                figures(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1), 99));
    assertEquals(50.81, chart.mean(), 5e-3);
    assertEquals(1.8778, chart.meanMovingRange(), 5e-5);
    assertEquals(55.8041, chart.high(), 2e-4);
    assertEquals(45.8159, chart.low(), 2e-4);
    assertEquals(List.of(), chart.signals());
  }

  @Test
  void aFigureBeyondALimitAndTheEighthOnOneSideAreSignals() {
    double[] values = new double[30];
    for (int i = 0; i < values.length; i++) {
      values[i] = 34 + (i % 2 == 0 ? 0.1 : -0.1);
    }
    values[12] = 36;
    for (int i = 20; i < 30; i++) {
      values[i] = 34.05;
    }
    ControlChart chart = found(ControlChart.of(figures(values), 12));
    assertEquals(34, chart.mean(), 1e-12);
    assertEquals(0.2, chart.meanMovingRange(), 1e-12);
    List<ControlChart.Signal> expected = new ArrayList<>();
    expected.add(new ControlChart.Signal(12, ControlChart.Kind.BEYOND));
    for (int place = 27; place < 30; place++) {
      expected.add(new ControlChart.Signal(place, ControlChart.Kind.SHIFTED));
    }
    assertEquals(expected, chart.signals());
  }

  @Test
  void aFigureThatNeverChangesGivesNoSignal() {
    double[] same = new double[300];
    java.util.Arrays.fill(same, 3.45);
    assertEquals(List.of(), found(ControlChart.of(figures(same), 300)).signals());
  }

  @Test
  void tooFewFiguresGiveNoLimitsAndTheReason() {
    Outcome<ControlChart> none = ControlChart.of(figures(1, 2, 3), 20);
    assertEquals(
        "limits need at least 8 boxes with this figure and there are 3",
        ((Outcome.NoResult<ControlChart>) none).because());
  }

  /** ISO 8601: 1 January 2027 is a Friday and belongs to week 53 of 2026 (any calendar). */
  @Test
  void weeksAreThoseOfIso8601ByTheShopsOwnClock() {
    assertEquals("2026-W53", Week.of(Instant.parse("2027-01-01T12:00:00Z"), ZoneOffset.UTC) + "");
    assertEquals("2027-W01", Week.of(Instant.parse("2027-01-04T00:00:00Z"), ZoneOffset.UTC) + "");
    Instant lateSunday = Instant.parse("2026-11-22T20:00:00Z");
    assertEquals("2026-W47", Week.of(lateSunday, ZoneOffset.UTC).toString());
    assertEquals("2026-W48", Week.of(lateSunday, ZoneId.of("Asia/Tokyo")).toString());
  }

  @Test
  void aBoxCountsInTheWeekThatFirstJudgedItAndAnUnjudgedRunIsNoAttemptOfTheBox() {
    Instant next = MONDAY.plusSeconds(7 * 86_400L);
    List<BoxAttempt> attempts =
        List.of(
            new BoxAttempt("job", "1", 1, MONDAY, Decision.PASS),
            new BoxAttempt("job", "2", 1, MONDAY, Decision.FAIL),
            new BoxAttempt("job", "2", 2, next, Decision.FAIL),
            new BoxAttempt("job", "2", 3, next, Decision.PASS),
            new BoxAttempt("job", "3", 1, MONDAY, Decision.NOT_JUDGED),
            new BoxAttempt("job", "3", 2, MONDAY, Decision.PASS),
            new BoxAttempt("job", "4", 1, MONDAY, Decision.UNDECIDED),
            new BoxAttempt("other job", "4", 1, next, Decision.NOT_JUDGED),
            new BoxAttempt("third job", "4", 1, next, Decision.PASS));
    List<WeeklyYield> weeks = WeeklyYield.of(attempts, ZoneOffset.UTC);
    assertEquals(
        List.of(
            new WeeklyYield(new Week(2026, 48), 4, 2, 3, 2, 1),
            new WeeklyYield(new Week(2026, 49), 1, 1, 1, 0, 1)),
        weeks);
    assertEquals(0.5, weeks.get(0).firstPassShare());
    assertEquals(0.75, weeks.get(0).finalPassShare());
  }

  @Test
  void faultsStandMostFrequentFirstAndABoxCountsOnceForEach() {
    Instant next = MONDAY.plusSeconds(7 * 86_400L);
    List<FaultCount> counts =
        FaultCount.of(
            List.of(
                new Suspected("job", "1", MONDAY, "leak"),
                new Suspected("job", "2", MONDAY, "driver reversed"),
                new Suspected("job", "2", next, "driver reversed"),
                new Suspected("job", "3", next, "driver reversed"),
                new Suspected("job", "2", next, "vent closed")),
            ZoneOffset.UTC);
    assertEquals(
        List.of("driver reversed", "leak", "vent closed"),
        counts.stream().map(FaultCount::fault).toList());
    assertEquals(2, counts.get(0).boxes());
    assertEquals(0.5, counts.get(0).share());
    assertEquals(0.75, counts.get(1).running());
    assertEquals(1, counts.get(2).running());
    assertEquals(Map.of(new Week(2026, 48), 1, new Week(2026, 49), 1), counts.get(0).byWeek());
  }

  @Test
  void aRangeOfSerialsKeepsItsDigitsAndRefusesNonsense() {
    assertEquals(
        Optional.of(List.of("C-0098", "C-0099", "C-0100")), SerialRange.of("C-0098..C-0100"));
    assertEquals(Optional.of(List.of("7")), SerialRange.of("7..7"));
    assertEquals(Optional.empty(), SerialRange.of("C-0098"));
    assertEquals(Optional.empty(), SerialRange.of("A-1..B-2"));
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> SerialRange.of("9..3"))
            .getMessage()
            .contains("a range rises"));
    assertThrows(IllegalArgumentException.class, () -> SerialRange.of("1..999999999"));
  }

  private static List<ReadFigure> figures(double... values) {
    List<ReadFigure> figures = new ArrayList<>();
    for (double value : values) {
      Instant at = MONDAY.plusSeconds(60L * figures.size());
      figures.add(new ReadFigure(figures.size() + 1, "S" + figures.size(), at, value, "Hz"));
    }
    return figures;
  }

  private static ControlChart found(Outcome<ControlChart> outcome) {
    return ((Outcome.Found<ControlChart>) outcome).value();
  }
}
