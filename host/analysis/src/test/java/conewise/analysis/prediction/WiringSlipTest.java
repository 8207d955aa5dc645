package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Resistances by Ohm's and Kirchhoff's laws, worked out by hand; the leads have 0.05 ohm. */
class WiringSlipTest {
  private static final PlannedBox TWO_OF_TWO =
      Plans.shared(Plans.kind(3.6, 3.6), 2, Optional.empty(), Plans.twoOfTwo());

  private static WiringSlip slip(PlannedBox plan, String id) {
    return WiringSlip.of(plan).stream()
        .filter(each -> each.fault().id().equals(id))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no slip " + id));
  }

  @ParameterizedTest
  @CsvSource({
    // 0.05 + 7.2 / 2
    "driver-reversed:a, 3.65, CANNOT_SHOW",
    "coil-reversed:b.2, 3.65, CANNOT_SHOW",
    "box-reversed:all, 3.65, CANNOT_SHOW",
    // (3.6 / 2) + (3.6 / 2) is 3.6 as well
    "wired-otherwise:exchanged, 3.65, CANNOT_SHOW",
    // one string of 7.2 is left
    "coil-open:a.1, 7.25, SHOWS",
    "driver-disconnected:b, 7.25, SHOWS",
    // 3.6 beside 7.2: 2.4
    "coil-shorted:a.1, 2.45, SHOWS",
    "wired-otherwise:all-series, 14.45, SHOWS",
    "wired-otherwise:all-parallel, 0.95, SHOWS",
    // 1.8 beside 7.2: 1.44
    "wired-otherwise:join-2, 1.49, SHOWS"
  })
  void aMeterReadsOfTwoDriversOfTwoCoils(String id, double ohm, WiringSlip.Meter meter) {
    WiringSlip slip = slip(TWO_OF_TWO, id);
    assertEquals(ohm, slip.ohm(), 1e-9);
    assertEquals(meter, slip.meter());
  }

  @Test
  void polarityNeverShowsInTheResistanceOfAnyBox() {
    PlannedBox single = Plans.shared(Plans.kind(5.6), 1, Optional.empty(), Circuit.coil("a", 1));
    for (PlannedBox plan : List.of(TWO_OF_TWO, single)) {
      List<WiringSlip> reversed =
          WiringSlip.of(plan).stream()
              .filter(each -> each.fault().id().contains("reversed"))
              .toList();
      assertTrue(!reversed.isEmpty());
      reversed.forEach(each -> assertEquals(WiringSlip.Meter.CANNOT_SHOW, each.meter()));
    }
  }

  /** Eight of 6.4 ohm: 0.8; seven: 0.914, 14 % more, where a tolerance of 10 % lies on both. */
  @Test
  void aMeterMayShowOneOpenDriverOfEightAndSurelyDoesWhereTheToleranceIsSmall() {
    PlannedBox plan = eight(Demands.NONE);
    WiringSlip wide = slip(plan, "coil-open:c.1");
    assertEquals(0.05 + 6.4 / 7, wide.ohm(), 1e-9);
    assertEquals(WiringSlip.Meter.MAY_SHOW, wide.meter());
    Demands strict =
        new Demands(Optional.empty(), 0.03, Optional.empty(), Map.of(), Map.of(), Map.of());
    assertEquals(WiringSlip.Meter.SHOWS, slip(eight(strict), "coil-open:c.1").meter());
  }

  @Test
  void limitsThatAreOpenAtOneEndAreHeldAgainstThatEndAlone() {
    Demands atLeast =
        new Demands(
            Optional.of(Interval.atLeast(0.8)),
            0.03,
            Optional.empty(),
            Map.of(),
            Map.of(),
            Map.of());
    WiringSlip open = slip(eight(atLeast), "coil-open:c.1");
    assertEquals(WiringSlip.Meter.MAY_SHOW, open.meter(), open.toString());
    assertEquals(WiringSlip.Meter.SHOWS, slip(eight(atLeast), "coil-shorted:c.1").meter());
  }

  private static PlannedBox eight(Demands demands) {
    List<Circuit> coils =
        Stream.of("a", "b", "c", "d", "e", "f", "g", "h").map(n -> Circuit.coil(n, 1)).toList();
    PlannedBox plan =
        Plans.shared(Plans.kind(6.4), 8, Optional.empty(), new Circuit.Parallel(coils));
    return new PlannedBox(
        plan.name(),
        plan.kinds(),
        plan.drivers(),
        plan.spaces(),
        plan.vents(),
        plan.radiators(),
        plan.wiring(),
        plan.leadOhm(),
        demands);
  }
}
