package conewise.station.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class FaultWordsTest {

  @Test
  void sentencesShareTheirBeginningAndTheirEnd() {
    assertEquals(
        "driver left or right is wired backwards",
        FaultWords.shared(
            List.of("driver left is wired backwards", "driver right is wired backwards")));
    assertEquals(
        "coil 1 of driver a, 2 of driver a or 1 of driver b is shorted",
        FaultWords.shared(
            List.of(
                "coil 1 of driver a is shorted",
                "coil 2 of driver a is shorted",
                "coil 1 of driver b is shorted")));
  }

  @Test
  void oneSentenceStaysAsItIs() {
    assertEquals("the box leaks", FaultWords.shared(List.of("the box leaks")));
  }

  @Test
  void sentencesThatShareNothingStandWhole() {
    assertEquals("a b; or c d", FaultWords.shared(List.of("a b", "c d")));
  }

  @Test
  void noSentenceLosesItsOwnPartToWhatIsShared() {
    assertEquals(
        "exchanged in the join of left or left and right",
        FaultWords.shared(
            List.of("exchanged in the join of left", "exchanged in the join of left and right")));
  }
}
