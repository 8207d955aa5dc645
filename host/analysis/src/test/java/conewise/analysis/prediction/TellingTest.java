package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import conewise.analysis.prediction.Telling.Kind;
import java.util.List;
import org.junit.jupiter.api.Test;

class TellingTest {

  @Test
  void aFaultIsShownSurelyOnlyWhereTheNearestBoxIsToldWithTwoDeviationsToSpare() {
    assertEquals(Kind.SURELY, Telling.of(List.of(5.7, 30.0, 8.0), 3.7).kind());
    assertEquals(Kind.PERHAPS, Telling.of(List.of(5.6, 30.0, 8.0), 3.7).kind());
    assertEquals(Kind.PERHAPS, Telling.of(List.of(3.6, 30.0, 40.0), 3.7).kind());
  }

  @Test
  void countsThoseThatReachWhatIsNeededAndTheNearest() {
    assertEquals(new Telling(Kind.PERHAPS, 2, 3, 0), Telling.of(List.of(3.7, 0.0, 9.0), 3.7));
  }

  @Test
  void refusesMoreToldThanDrawn() {
    assertThrows(IllegalArgumentException.class, () -> new Telling(Kind.SURELY, 5, 4, 1));
  }
}
