package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class EvidenceTest {

  /** Small 1973, lossless: fs 37.8, compliance ratio 1, tuned to fs gives 23.36168 and 61.16168. */
  @Test
  void peaksAndTuningOfALosslessBoxGiveItsDriverAndCompliance() {
    Evidence.Implied implied = Evidence.Implied.of(23.36168, 61.16168, 37.8);
    assertEquals(37.8, implied.ownHz(), 1e-4);
    assertEquals(1.0, implied.compliance(), 1e-5);
  }
}
