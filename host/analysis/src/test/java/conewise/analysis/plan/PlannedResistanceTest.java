package conewise.analysis.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import conewise.analysis.plan.BoxPlan.PlannedDriver;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Values by Ohm's law, worked by hand. */
class PlannedResistanceTest {
  private static final Limits LIMITS =
      new Limits(
          Optional.empty(),
          0.1,
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  private static BoxPlan twoDualFours(Wiring wiring) {
    return new BoxPlan(
        "two dual fours",
        Kind.VENTED,
        List.of(
            new PlannedDriver("a", List.of(4.0, 4.0), Optional.empty()),
            new PlannedDriver("b", List.of(4.0, 4.0), Optional.empty())),
        wiring,
        false,
        0,
        LIMITS);
  }

  private static Wiring.Coil coil(String driver, int number) {
    return new Wiring.Coil(driver, number);
  }

  private static final BoxPlan PLAN =
      twoDualFours(
          new Wiring.Parallel(
              List.of(
                  new Wiring.Series(List.of(coil("a", 1), coil("a", 2))),
                  new Wiring.Series(List.of(coil("b", 1), coil("b", 2))))));

  @Test
  void coilsOfADriverInSeriesAndDriversInParallelGiveOneCoil() {
    assertEquals(4.0, PlannedResistance.ohm(PLAN), 1e-12);
  }

  @Test
  void slipsGiveFourTimesAQuarterDoubleAndTwoThirds() {
    List<Double> ohms =
        PlannedResistance.slips(PLAN).stream().map(PlannedResistance.Slip::ohm).toList();
    for (double expected : new double[] {16, 1, 8, 8.0 / 3}) {
      assertTrue(
          ohms.stream().anyMatch(ohm -> Math.abs(ohm - expected) < 1e-9), expected + " " + ohms);
    }
  }

  @Test
  void aCoilNamedTwiceOrNeverIsRefusedByName() {
    Wiring twice = new Wiring.Series(List.of(coil("a", 1), coil("a", 1)));
    String message =
        assertThrows(IllegalArgumentException.class, () -> twoDualFours(twice)).getMessage();
    assertTrue(message.contains("coil 1 of driver a 2 times"), message);
  }
}
