package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class InductanceTest {
  @ParameterizedTest
  @ValueSource(doubles = {0.05, 0.7, 1})
  void noInductanceIsNoneWhateverExponentItIsStatedWith(double exponent) {
    assertEquals(Inductance.NONE, new Inductance(0, 0, exponent));
    assertEquals(Inductance.NONE, Inductance.lossy(0, exponent));
  }

  @Test
  void theExponentOfALossyInductanceStays() {
    assertEquals(0.7, Inductance.lossy(0.02, 0.7).exponent());
    assertNotEquals(Inductance.NONE, Inductance.lossy(1e-9, 0.7));
  }
}
