package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The target of the error budget: after a calibration every reading of 1 to 100 ohm from 10 to 400
 * Hz is within 1 % and 1 degree, on jigs whose every gain, filter, zero and sense resistor is off
 * by up to 5 %. The truth is the load's own impedance by Ohm's law (R, j w L, 1/(j w C)).
 */
class FivePercentPartsTest {
  private static final double STANDARD_OHM = 10;
  private static final double LOW_HZ = 10;
  private static final double HIGH_HZ = 400;

  private record Load(Wiring wiring, DoubleFunction<Complex> truth) {}

  private record Worst(double modulus, double phaseDegrees) {}

  /** How many points' 95 % intervals hold the truth. */
  private record Held(int inside, int all) {
    Held plus(Held other) {
      return new Held(inside + other.inside, all + other.all);
    }
  }

  private static Map<String, Load> loads() {
    Map<String, Load> loads = new LinkedHashMap<>();
    for (double ohm : new double[] {1, 4, 25, 100}) {
      loads.put(ohm + " ohm", new Load(Wiring.ohm(ohm), hz -> new Complex(ohm)));
    }
    loads.put(
        "3 ohm with 2 mH",
        new Load(
            new Wiring.Series(List.of(Wiring.ohm(3), new Wiring.Inductor(2e-3))),
            hz -> new Complex(3, 2 * Math.PI * hz * 2e-3)));
    loads.put(
        "20 ohm beside 100 uF",
        new Load(
            new Wiring.Parallel(List.of(Wiring.ohm(20), new Wiring.Capacitor(100e-6, 0.001))),
            hz ->
                new Complex(0.001, -1 / (2 * Math.PI * hz * 100e-6))
                    .reciprocal()
                    .add(1.0 / 20)
                    .reciprocal()));
    return loads;
  }

  private static World jig(long seed) {
    return DemoWorld.HERON.load().with(JigImperfections.fivePercent(seed)).withSeed(seed);
  }

  private static Calibration calibrated(World world, StopRequest stop) throws Exception {
    VirtualClips clips = new VirtualClips(world, STANDARD_OHM, StillScreen.progress());
    return new Calibrating(clips, STANDARD_OHM, 0.001, StillScreen.progress(), stop).run("FIVE");
  }

  private static SweepResult swept(
      SweepKind kind, World world, Wiring load, SweepSettings settings, StopRequest stop)
      throws Exception {
    // Another noise than the calibration's.
    World loaded = world.with(Box.load(load)).withSeed(world.seed() + 1000);
    try (JigClient client = new JigChoice.Virtual(loaded).connect(StillScreen.progress())) {
      return assertInstanceOf(
          SweepResult.class,
          new SweepRun(kind, settings, Optional.empty()).run(client, StillScreen.progress(), stop));
    }
  }

  private static ImpedanceCurve found(Outcome<ImpedanceCurve> curve) {
    assertInstanceOf(Outcome.Found.class, curve, curve::toString);
    return ((Outcome.Found<ImpedanceCurve>) curve).value();
  }

  private static Worst worst(ImpedanceCurve curve, DoubleFunction<Complex> truth) {
    double modulus = 0;
    double phase = 0;
    int counted = 0;
    for (ImpedancePoint point : curve.points()) {
      if (point.frequencyHz() < LOW_HZ || point.frequencyHz() > HIGH_HZ) {
        continue;
      }
      Complex ratio =
          new Complex(point.resistanceOhm(), point.reactanceOhm())
              .divide(truth.apply(point.frequencyHz()));
      modulus = Math.max(modulus, Math.abs(ratio.abs() - 1));
      phase = Math.max(phase, Math.abs(Math.toDegrees(ratio.getArgument())));
      counted++;
    }
    assertTrue(counted >= 12, counted + " points from 10 to 400 Hz");
    return new Worst(modulus, phase);
  }

  /** Each part of each point against the interval of twice its standard uncertainty. */
  private static Held held(ImpedanceCurve curve, DoubleFunction<Complex> truth) {
    Held held = new Held(0, 0);
    for (ImpedancePoint point : curve.points()) {
      if (point.frequencyHz() < LOW_HZ || point.frequencyHz() > HIGH_HZ) {
        continue;
      }
      Complex is = truth.apply(point.frequencyHz());
      ImpedanceUncertainty own = point.uncertainty().orElseThrow();
      double scale = curve.scaleUncertainty();
      boolean real =
          Math.abs(point.resistanceOhm() - is.getReal())
              <= 2 * Math.hypot(Math.sqrt(own.varianceResistance()), scale * is.getReal());
      boolean imaginary =
          Math.abs(point.reactanceOhm() - is.getImaginary())
              <= 2 * Math.hypot(Math.sqrt(own.varianceReactance()), scale * is.getImaginary());
      held = held.plus(new Held((real ? 1 : 0) + (imaginary ? 1 : 0), 2));
    }
    return held;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void everyReadingOfACalibratedJigIsWithinOnePerCentAndOneDegree(long seed) throws Exception {
    World world = jig(seed);
    try (StopRequest stop = StopRequest.listen()) {
      SweepSettings calibrated = SweepSettings.standard().with(calibrated(world, stop));
      double worstBefore = 0;
      Held quickHeld = new Held(0, 0);
      for (Map.Entry<String, Load> each : loads().entrySet()) {
        Load load = each.getValue();
        SweepResult result = swept(SweepKind.THOROUGH, world, load.wiring(), calibrated, stop);
        Worst before = worst(found(result.readCurve()), load.truth());
        Worst after = worst(found(result.measurement().curve()), load.truth());
        ImpedanceCurve quickCurve =
            found(
                swept(SweepKind.QUICK, world, load.wiring(), calibrated, stop)
                    .measurement()
                    .curve());
        Worst quick = worst(quickCurve, load.truth());
        quickHeld = quickHeld.plus(held(quickCurve, load.truth()));
        String where =
            String.format(
                Locale.ROOT,
                "jig %d, %s: %.2f %% and %.2f degrees before, %.2f %% and %.2f degrees after, quick"
                    + " %.2f %% and %.2f degrees",
                seed,
                each.getKey(),
                100 * before.modulus(),
                before.phaseDegrees(),
                100 * after.modulus(),
                after.phaseDegrees(),
                100 * quick.modulus(),
                quick.phaseDegrees());
        System.out.println(where);
        assertTrue(after.modulus() <= 0.01, where);
        assertTrue(after.phaseDegrees() <= 1, where);
        assertTrue(quick.modulus() <= 0.01, where);
        assertTrue(quick.phaseDegrees() <= 1, where);
        worstBefore = Math.max(worstBefore, before.modulus());
      }
      String held = "jig " + seed + ", quick sweeps: truth in the 95 % interval, " + quickHeld;
      System.out.println(held);
      assertTrue(quickHeld.inside() >= 0.95 * quickHeld.all(), held);
      assertTrue(worstBefore > 0.03, "jig " + seed + " is off by no more than " + worstBefore);
    }
  }

  @Test
  void jigsOfOtherPartsHaveOtherSerialNumbersAndOtherBoxesTheSame() {
    assertEquals(jig(1).jigSerial(), jig(1).withSeed(7).with(Box.load(Wiring.ohm(4))).jigSerial());
    assertTrue(!jig(1).jigSerial().equals(jig(2).jigSerial()), jig(1).jigSerial());
    assertTrue(jig(1).jigSerial().matches("[A-Za-z0-9-]{1,16}"), jig(1).jigSerial());
  }
}
