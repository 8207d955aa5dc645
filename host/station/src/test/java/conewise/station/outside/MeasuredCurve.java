package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Box;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import conewise.simulator.world.World;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;

/** The impedance of a box as the host measures it through the protocol on an ideal virtual jig. */
record MeasuredCurve(ImpedanceCurve curve) {
  /**
   * What an ideal jig of 10 bits can do: a comb of some 120 tones through converters of 10 bits was
   * computed beforehand to read |Z| to 0.5 % in the median and 1.0 % at the 95th percentile in one
   * period of a second, its converter bent by 0.3 and noisy by 0.4 steps. The ideal jig here only
   * rounds (0.29 steps, root mean square), so half of that must do.
   */
  private static final double MEDIAN = 0.0025;

  private static final double PERCENTILE_95 = 0.005;

  static MeasuredCurve of(Box box) throws Exception {
    World world = new World("outside", "a box", "exact", box, JigImperfections.ideal(), 1);
    MemoryLink link = new MemoryLink(new VirtualJig(world.start(), JigSetup.standard()));
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      SweepOutcome outcome =
          new QuickSweep(SweepSettings.standard()).run(client, SweepListener.NONE);
      SweepResult result = assertInstanceOf(SweepResult.class, outcome, outcome.toString());
      Outcome<ImpedanceCurve> read = result.readCurve();
      assertInstanceOf(Outcome.Found.class, read, () -> result.measurement().toString());
      return new MeasuredCurve(((Outcome.Found<ImpedanceCurve>) read).value());
    }
  }

  /** Holds the whole curve against an expectation, as complex numbers. */
  void assertEqualTo(DoubleFunction<Complex> expected, String source) {
    double[] errors =
        curve.points().stream()
            .mapToDouble(
                point -> {
                  Complex truth = expected.apply(point.frequencyHz());
                  return complex(point).subtract(truth).abs() / truth.abs();
                })
            .sorted()
            .toArray();
    assertTrue(errors.length > 100, errors.length + " points");
    double median = errors[errors.length / 2];
    double percentile95 = errors[(int) Math.ceil(0.95 * errors.length) - 1];
    String figures =
        String.format(
            Locale.ROOT,
            "against %s: median %.3f %%, 95th percentile %.3f %%, worst %.3f %%",
            source,
            100 * median,
            100 * percentile95,
            100 * Arrays.stream(errors).max().orElseThrow());
    System.out.println(figures);
    assertTrue(median <= MEDIAN && percentile95 <= PERCENTILE_95, figures);
  }

  /** Where the phase falls through zero: the resonance of a box without coil inductance. */
  double fallingPhaseZeroHz() {
    for (int i = 1; i < curve.points().size(); i++) {
      ImpedancePoint before = curve.points().get(i - 1);
      ImpedancePoint here = curve.points().get(i);
      if (before.reactanceOhm() > 0 && here.reactanceOhm() <= 0) {
        double part = before.phaseDegrees() / (before.phaseDegrees() - here.phaseDegrees());
        return before.frequencyHz() + part * (here.frequencyHz() - before.frequencyHz());
      }
    }
    throw new AssertionError("the phase never falls through zero");
  }

  private static Complex complex(ImpedancePoint point) {
    return new Complex(point.resistanceOhm(), point.reactanceOhm());
  }
}
