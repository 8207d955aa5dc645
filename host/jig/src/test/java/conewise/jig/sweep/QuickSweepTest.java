package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.workbench.Workbench;
import org.junit.jupiter.api.Test;

class QuickSweepTest {

  static ImpedanceCurve curve(SweepOutcome outcome) {
    SweepResult result = assertInstanceOf(SweepResult.class, outcome, outcome.toString());
    Outcome<ImpedanceCurve> curve = result.measurement().curve();
    assertTrue(
        curve instanceof Outcome.Found<ImpedanceCurve>,
        () -> curve + " " + result.measurement().findings());
    return ((Outcome.Found<ImpedanceCurve>) curve).value();
  }

  @Test
  void readsAResistorOnAnIdealJigWithinTheConvertersSteps() throws Exception {
    try (JigClient client = Workbench.resistor(6.8).connect()) {
      SweepOutcome outcome =
          new QuickSweep(SweepSettings.standard()).run(client, SweepListener.NONE);
      double worst = 0;
      for (ImpedancePoint point : curve(outcome).points()) {
        worst = Math.max(worst, Math.hypot(point.resistanceOhm() - 6.8, point.reactanceOhm()));
      }
      assertEquals(0, worst / 6.8, 0.005);
    }
  }
}
