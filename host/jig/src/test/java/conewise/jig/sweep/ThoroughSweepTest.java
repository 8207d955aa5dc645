package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.excitation.ToneSchedule;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigListener;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.link.MemoryLink;
import java.util.List;
import org.junit.jupiter.api.Test;

class ThoroughSweepTest {

  private static final ToneSchedule FEW = new ToneSchedule(10, 400, 12, 64e-6, 2);

  private static final ThoroughSweep SWEEP =
      new ThoroughSweep(SweepSettings.standard().withoutSelfCheck(), FEW);

  private static Workbench coil() {
    return Workbench.coil(3.3, 1e-3).with(JigImperfections.nominal());
  }

  /** A listener that stops after so many tones. */
  private static SweepListener stoppingAfter(int tones) {
    return new SweepListener() {
      private int points;

      @Override
      public void progress(double fraction, String what, CurveSoFar soFar) {
        points = soFar.points().size();
      }

      @Override
      public boolean wantsToStop() {
        return points >= tones;
      }
    };
  }

  private static void assertIsTheCoil(SweepOutcome outcome) {
    List<ImpedancePoint> points = QuickSweepTest.curve(outcome).points();
    assertEquals(12, points.size());
    for (ImpedancePoint point : points) {
      // R + j 2 pi f L, and 50 milliohm of clips.
      double reactance = 2 * Math.PI * point.frequencyHz() * 1e-3;
      double modulus = Math.hypot(3.35, reactance);
      assertEquals(3.35, point.resistanceOhm(), 0.01 * modulus, point.toString());
      assertEquals(reactance, point.reactanceOhm(), 0.01 * modulus, point.toString());
    }
  }

  @Test
  void aCoilIsReadWithinOnePercentAtEachTone() throws Exception {
    try (JigClient client = coil().connect()) {
      assertIsTheCoil(SWEEP.run(client, SweepListener.NONE));
    }
  }

  @Test
  void whatWasMeasuredBeforeAnInterruptionIsNotMeasuredAgain() throws Exception {
    try (JigClient client = coil().connect()) {
      Interrupted interrupted =
          assertInstanceOf(Interrupted.class, SWEEP.run(client, stoppingAfter(5)));
      assertEquals(new JigFault.Cancelled(), interrupted.fault());
      assertEquals(5, interrupted.state().readings().size());
      assertEquals("none", client.status().wave());
      SweepOutcome resumed = SWEEP.resume(client, interrupted.state(), SweepListener.NONE);
      assertIsTheCoil(resumed);
      SweepResult result = assertInstanceOf(SweepResult.class, resumed);
      assertEquals(interrupted.state().captures(), result.captures().subList(0, 5));
    }
  }

  @Test
  void aPulledCableKeepsWhatWasMeasuredAndTheSweepGoesOnOverANewLink() throws Exception {
    MemoryLink link = coil().link();
    Interrupted interrupted;
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      SweepListener pulling =
          (fraction, what, soFar) -> {
            if (soFar.points().size() == 4) {
              link.unplug();
            }
          };
      interrupted = assertInstanceOf(Interrupted.class, SWEEP.run(client, pulling));
    }
    assertInstanceOf(JigFault.LinkLost.class, interrupted.fault());
    assertEquals(4, interrupted.state().readings().size());
    try (JigClient client = coil().connect()) {
      assertIsTheCoil(SWEEP.resume(client, interrupted.state(), SweepListener.NONE));
    }
  }

  @Test
  void anotherJigMayNotGoOn() throws Exception {
    Interrupted interrupted;
    try (JigClient client = coil().connect()) {
      interrupted = assertInstanceOf(Interrupted.class, SWEEP.run(client, stoppingAfter(2)));
    }
    Workbench other = coil().with(JigSetup.standard().withBaud(1_000_000));
    try (JigClient client = other.connect()) {
      SweepOutcome outcome = SWEEP.resume(client, interrupted.state(), SweepListener.NONE);
      Interrupted refused = assertInstanceOf(Interrupted.class, outcome);
      assertInstanceOf(JigFault.Unsuited.class, refused.fault());
      assertEquals(interrupted.state(), refused.state());
    }
  }

  @Test
  void aToneThatNeverSettlesIsAPointWithoutAResult() throws Exception {
    Workbench loose =
        Workbench.resistor(4).with(JigImperfections.nominal().with(new Contact(0.05, 30, 40)));
    try (JigClient client = loose.connect()) {
      SweepOutcome outcome =
          new ThoroughSweep(
                  SweepSettings.standard().withoutSelfCheck(),
                  new ToneSchedule(10, 400, 4, 64e-6, 2))
              .run(client, SweepListener.NONE);
      SweepResult result = assertInstanceOf(SweepResult.class, outcome);
      assertTrue(
          result.readCurve() instanceof Outcome.NoResult
              || result.measurement().findings().stream().anyMatch(f -> f.spoils()),
          () -> result.toString());
    }
  }
}
