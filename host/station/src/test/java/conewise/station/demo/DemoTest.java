package conewise.station.demo;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.judgement.Decision;
import org.junit.jupiter.api.Test;

class DemoTest {

  @Test
  void aWrongVerdictIsNeverAMatch() {
    assertEquals(DemoBox.Match.NO, DemoBox.GOOD_VENTED.match(Decision.FAIL));
    assertEquals(DemoBox.Match.NO, DemoBox.LEAKY.match(Decision.PASS));
    assertEquals(DemoBox.Match.NO, DemoBox.GOOD_SEALED.match(Decision.NOT_JUDGED));
    assertEquals(DemoBox.Match.YES, DemoBox.LEAKY.match(Decision.FAIL));
    assertEquals(
        DemoBox.Match.HONESTLY_UNDECIDED, DemoBox.SEPARATE_SPACES.match(Decision.UNDECIDED));
  }
}
