package conewise.station.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.outcome.Interval;
import conewise.analysis.prediction.CurveShape;
import conewise.analysis.prediction.CurveShape.Place;
import conewise.analysis.prediction.Telling;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CurveWordsTest {

  @Test
  void saysPeaksDipsBetweenThemLowestAndDirectResistance() {
    CurveShape shape =
        new CurveShape(
            List.of(new Place(20.74, 27.9), new Place(52.4, 25.26)),
            List.of(new Place(33.1, 4.5), new Place(130, 4.1)),
            new Place(128.4, 3.9),
            3.65);
    assertEquals(
        "two peaks, 27.9 ohm at 20.7 Hz and 25.3 ohm at 52.4 Hz; dip 4.50 ohm at 33.1 Hz;"
            + " lowest 3.90 ohm at 128 Hz; 3.65 ohm DC",
        CurveWords.of(shape));
  }

  @ParameterizedTest
  @CsvSource({
    "3.5, 3.50",
    "7, 7.00",
    "0.95, 0.950",
    "103.9, 104",
    "1234, 1230",
    "9.996, 10.0",
    "0.0973, 0.0973",
    "0.0005, 0"
  })
  void figuresHaveThreeDigits(double value, String words) {
    assertEquals(words, CurveWords.three(value));
  }

  @Test
  void rangesMayBeOpenAtEitherEnd() {
    assertEquals("3.40 to 3.90 ohm", CurveWords.ohm(new Interval(3.4, 3.9)));
    assertEquals("at least 3.40 ohm", CurveWords.ohm(Interval.atLeast(3.4)));
    assertEquals("at most 3.90 ohm", CurveWords.ohm(Interval.atMost(3.9)));
    assertEquals("open", CurveWords.ohm(Double.POSITIVE_INFINITY));
  }

  @Test
  void sayHowManyWereToldAndHowFarTheNearestWas() {
    assertEquals(
        "shown surely: 12 of 12 drawn boxes told, the nearest by 7.6 sigma",
        CurveWords.of(new Telling(Telling.Kind.SURELY, 12, 12, 7.58)));
    assertEquals(
        "may hide behind tolerances: 12 of 12 drawn boxes told, the nearest barely, by 4.1 sigma",
        CurveWords.of(new Telling(Telling.Kind.PERHAPS, 12, 12, 4.1)));
    assertEquals(
        "may hide behind tolerances: 4 of 12 drawn boxes told",
        CurveWords.of(new Telling(Telling.Kind.PERHAPS, 4, 12, 0)));
    assertEquals("never shown", CurveWords.of(new Telling(Telling.Kind.NEVER, 0, 0, 0)));
  }
}
