package conewise.analysis.load;

import static conewise.analysis.model.Circuit.coil;
import static conewise.analysis.model.Circuit.parallel;
import static conewise.analysis.model.Circuit.series;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TerminalLoadTest {
  private static final Circuit A = coil("a", 1);
  private static final Circuit B = coil("b", 1);
  private static final Circuit C = coil("c", 1);

  /** Two dual 4 ohm drivers, every usual way; common knowledge of the trade. */
  @Test
  void twoDualCoilDriversHaveTheirFourLoads() {
    Circuit upper = series(coil("upper", 1), coil("upper", 2));
    Circuit lower = series(coil("lower", 1), coil("lower", 2));
    assertEquals(4, TerminalLoad.of(parallel(upper, lower), coil -> 4).ohm(), 1e-12);
    assertEquals(16, TerminalLoad.of(series(upper, lower), coil -> 4).ohm(), 1e-12);
    Circuit side = parallel(coil("upper", 1), coil("upper", 2));
    Circuit other = parallel(coil("lower", 1), coil("lower", 2));
    assertEquals(4, TerminalLoad.of(series(side, other), coil -> 4).ohm(), 1e-12);
    assertEquals(1, TerminalLoad.of(parallel(side, other), coil -> 4).ohm(), 1e-12);
  }

  /**
   * By hand: a (4 ohm) in series with b and c (8 ohm each) in parallel: 8 ohm; at 8 V flows 1 A, a
   * takes 4 W of 8, b and c with 4 V each 2 W.
   */
  @Test
  void eachCoilHasItsShareOfPowerAndVoltage() {
    TerminalLoad load =
        TerminalLoad.of(series(A, parallel(B, C)), coil -> coil.driver().equals("a") ? 4 : 8);
    assertEquals(8, load.ohm(), 1e-12);
    assertEquals(
        List.of(0.5, 0.25, 0.25), load.shares().stream().map(TerminalLoad.Share::power).toList());
    assertEquals(0.5, load.shares().get(2).voltage(), 1e-12);
    assertEquals(0.25, load.leastPower(), 1e-12);
    assertEquals(0.5, load.mostPower(), 1e-12);
    assertFalse(load.isEvenOnDrivers());
  }

  /** By hand: 8 ohm of one driver's coils in series beside another of 8 ohm: 50 % each. */
  @Test
  void aDualCoilDriverIsEvenWithALoneOneOfTheSameLoad() {
    Circuit both = series(coil("a", 1), coil("a", 2));
    assertTrue(
        TerminalLoad.of(parallel(both, B), coil -> coil.driver().equals("a") ? 4 : 8)
            .isEvenOnDrivers());
    assertFalse(TerminalLoad.of(parallel(both, B), coil -> 4).isEvenOnDrivers());
    assertFalse(TerminalLoad.of(both, coil -> coil.number() == 1 ? 4 : 5).isEvenOnDrivers());
  }

  /** IEC 60268-5, 16.1 (second-hand): 8 ohm may fall to 6.4, 4 ohm to 3.2. */
  @ParameterizedTest
  @CsvSource({"8, 6.4", "4, 3.2", "2, 1.6"})
  void theModulusMayFallToFourFifthsOfTheRatedLoad(double rated, double least) {
    assertEquals(least, TerminalLoad.of(A, coil -> rated).leastAllowedOhm(), 1e-12);
    assertEquals(rated, TerminalLoad.of(A, coil -> least).surelyRatedOhm(), 1e-12);
  }

  @Test
  void powerIsSharedWithoutRemainder() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("loads: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 500; i++) {
      Circuit circuit = drawn(random, 3);
      double[] ohms = random.doubles(40, 0.5, 20).toArray();
      TerminalLoad load = TerminalLoad.of(circuit, coil -> ohms[coil.number() % 40]);
      double power = load.shares().stream().mapToDouble(TerminalLoad.Share::power).sum();
      assertEquals(1, power, 1e-9, "seed " + seed + ", case " + i + ": " + circuit);
      assertTrue(load.leastPower() > 0, "seed " + seed);
    }
  }

  private static Circuit drawn(Random random, int depth) {
    if (depth == 0 || random.nextInt(3) == 0) {
      return coil("any", 1 + random.nextInt(1000));
    }
    List<Circuit> parts = new ArrayList<>();
    for (int i = 0; i < 1 + random.nextInt(3); i++) {
      parts.add(drawn(random, depth - 1));
    }
    return random.nextBoolean() ? new Circuit.Series(parts) : new Circuit.Parallel(parts);
  }

  @Test
  void refusesACoilOfNothingAndAGap() {
    String message =
        assertThrows(IllegalArgumentException.class, () -> TerminalLoad.of(series(A, B), coil -> 0))
            .getMessage();
    assertTrue(message.contains("a.1") && message.contains("above 0"), message);
    Circuit gap = series(A, new Circuit.Gap());
    assertThrows(IllegalArgumentException.class, () -> TerminalLoad.of(gap, coil -> 4));
  }
}
