package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.workbench.CountingLink;
import conewise.jig.workbench.Workbench;
import conewise.simulator.link.LinkFaults;
import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * Whatever happens to the link, at whatever byte: a whole and right curve, or a clear sentence, and
 * either within a bounded time by the link's clock.
 */
class PulledLinkTest {

  private static final double OHM = 6.8;

  /**
   * Finding no jig takes 5 s; a jig that freezes later is asked to stop up to 3 times 0.4 s in each
   * of 3 attempts, then once more by the sweep and once by closing.
   */
  private static final double LIMIT_SECONDS = 15;

  private static final Comb SHORT =
      Comb.design(256 * 64e-6, List.of(1, 2, 3), /* tablePoints= */ 64, /* seed= */ 1);

  private static final QuickSweep SHORT_SWEEP =
      new QuickSweep(SweepSettings.standard().withoutSelfCheck(), SHORT);

  /** What came of one sweep over a faulty link: nothing but the two things allowed. */
  private Optional<ImpedanceCurve> sweep(QuickSweep sweep, LinkFaults faults, String which) {
    CountingLink link = new CountingLink(Workbench.resistor(OHM).with(faults).link());
    Optional<ImpedanceCurve> curve = Optional.empty();
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      SweepOutcome outcome = sweep.run(client, SweepListener.NONE);
      if (outcome instanceof Interrupted interrupted) {
        assertFalse(interrupted.because().isBlank(), which);
        assertFalse(interrupted.nextStep().isBlank(), which);
      } else {
        curve = right((SweepResult) outcome, which);
      }
    } catch (JigFaultException failed) {
      assertFalse(failed.fault().sentence().isBlank(), which);
      assertFalse(failed.fault().nextStep().isBlank(), which);
    }
    double seconds = link.nanoTime() * 1e-9;
    assertTrue(seconds < LIMIT_SECONDS, () -> which + " took " + seconds + " s");
    assertTrue(link.isClosed(), which + ": the link was left open");
    return curve;
  }

  private static Optional<ImpedanceCurve> right(SweepResult result, String which) {
    Outcome<ImpedanceCurve> read = result.readCurve();
    assertTrue(read instanceof Outcome.Found<ImpedanceCurve>, () -> which + ": " + read);
    ImpedanceCurve curve = ((Outcome.Found<ImpedanceCurve>) read).value();
    for (ImpedancePoint point : curve.points()) {
      assertEquals(OHM, point.resistanceOhm(), 0.01 * OHM, which);
      assertEquals(0, point.reactanceOhm(), 0.01 * OHM, which);
    }
    assertEquals(result.frequenciesHz().size(), curve.points().size(), which);
    return Optional.of(curve);
  }

  private static long[] bytes(QuickSweep sweep) throws JigFaultException {
    CountingLink link = new CountingLink(Workbench.resistor(OHM).link());
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      sweep.run(client, SweepListener.NONE);
    }
    return new long[] {link.bytesRead(), link.bytesWritten()};
  }

  private int strike(QuickSweep sweep, Fault fault, long stride) throws JigFaultException {
    long[] bytes = bytes(sweep);
    int curves = 0;
    for (Direction direction : Direction.values()) {
      long count = direction == Direction.TO_HOST ? bytes[0] : bytes[1];
      for (long at = 0; at < count; at += stride) {
        LinkFaults faults = LinkFaults.none().at(direction, fault, at);
        String which = fault + " " + direction + " at byte " + at + " of " + count;
        curves += sweep(sweep, faults, which).isPresent() ? 1 : 0;
      }
    }
    return curves;
  }

  @Test
  void aLinkPulledAtAnyByteOfASweepEndsInAClearSentenceInTime() throws Exception {
    strike(SHORT_SWEEP, Fault.UNPLUG, 1);
  }

  @Test
  void aJigThatRestartsAtAByteOfASweepIsNoticed() throws Exception {
    strike(SHORT_SWEEP, Fault.REBOOT, 17);
  }

  @Test
  void aLinkThatFreezesAtAByteOfASweepIsGivenUpInTime() throws Exception {
    strike(SHORT_SWEEP, Fault.FREEZE, 61);
  }

  @Test
  void aByteLostFlippedOrDoubledAnywhereNeverGivesAWrongNumber() throws Exception {
    assertTrue(strike(SHORT_SWEEP, Fault.DROP, 13) > 0);
    assertTrue(strike(SHORT_SWEEP, Fault.FLIP, 13) > 0);
    assertTrue(strike(SHORT_SWEEP, Fault.DUPLICATE, 13) > 0);
    assertTrue(strike(SHORT_SWEEP, Fault.DELAY, 97) > 0);
  }

  @Test
  void theRealSweepPulledAtAStrideOfBytesEndsInAClearSentenceInTime() throws Exception {
    QuickSweep real = new QuickSweep(SweepSettings.standard().withoutSelfCheck());
    strike(real, Fault.UNPLUG, 2999);
    strike(real, Fault.REBOOT, 7919);
    strike(real, Fault.FREEZE, 7919);
  }

  @Test
  void randomDamageLeavesARightCurveOrAnHonestFailure() {
    long seed = new Random().nextLong();
    Map<String, Integer> curves = new TreeMap<>();
    for (Fault fault : List.of(Fault.DROP, Fault.FLIP, Fault.DUPLICATE, Fault.DELAY, Fault.SPLIT)) {
      for (double rate : new double[] {1e-4, 1e-3, 1e-2}) {
        for (int run = 0; run < 12; run++) {
          LinkFaults faults = LinkFaults.none().seeded(seed + run);
          for (Direction direction : Direction.values()) {
            faults = faults.often(direction, fault, rate);
          }
          String which = fault + " at rate " + rate + ", seed " + (seed + run);
          boolean got = sweep(SHORT_SWEEP, faults, which).isPresent();
          curves.merge(fault + " " + rate, got ? 1 : 0, Integer::sum);
        }
      }
    }
    System.out.println("right curves of 12, seed " + seed + ": " + curves);
    assertTrue(curves.get("FLIP 1.0E-4") > 0, "seed " + seed);
    assertEquals(12, curves.get("SPLIT 1.0E-4"), "seed " + seed);
  }
}
