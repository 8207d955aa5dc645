package conewise.station.card;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Interval;
import org.junit.jupiter.api.Test;

/** Expected texts follow JCGM 100, 7.2.6 (two significant digits of the uncertainty), by hand. */
class FiguresTest {

  @Test
  void aValueCarriesTheDigitsItsIntervalAllows() {
    Reading reading = new Reading(34.0217, new Interval(33.6, 34.44), "Hz");
    assertEquals("34.02 Hz", Figures.value(reading));
    assertEquals("33.60 to 34.44", Figures.interval(reading));
    assertEquals("34 Hz", Figures.value(new Reading(34.0217, new Interval(20, 60), "Hz")));
  }

  @Test
  void aCountIsExact() {
    Reading one = new Reading(1, new Interval(1, 1), "peaks");
    assertEquals("1 peak", Figures.value(one));
    assertEquals("exact", Figures.interval(one));
    assertEquals("2 peaks", Figures.value(new Reading(2, new Interval(2, 2), "peaks")));
  }

  @Test
  void aProbabilityIsNeverToldAsCertain() {
    assertEquals("under 0.001", Figures.value(probability(3e-7)));
    assertEquals("over 0.999", Figures.value(probability(1)));
    assertEquals("0.953", Figures.value(probability(0.9531)));
    assertEquals("a probability", Figures.interval(probability(0.9531)));
  }

  private static Reading probability(double value) {
    return new Reading(value, new Interval(value, value), "probability");
  }

  @Test
  void openLimitsAreSaidInWords() {
    assertEquals("at least 3.2", Figures.limits(Interval.atLeast(3.2)));
    assertEquals("at most 1.3", Figures.limits(Interval.atMost(1.3)));
    assertEquals("2", Figures.limits(new Interval(2, 2)));
    assertEquals("32.3 to 35.7", Figures.limits(new Interval(32.3, 35.7)));
  }

  @Test
  void plainFiguresHaveFourDigitsAndNoTrailingZeros() {
    assertEquals("20", Figures.plain(20));
    assertEquals("33.12", Figures.plain(33.1234));
    assertEquals("0.004", Figures.plain(0.004));
    assertEquals("0", Figures.plain(-0.0));
    assertEquals("12350", Figures.plain(12345.6));
  }
}
