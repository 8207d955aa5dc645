package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Driver;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * What a measurement is worth, through the whole protocol: modulus and phase against closed forms.
 * The aim, 0.5 % median and 1 % at the 95th percentile, is what a 10-bit converter with 0.4 steps
 * of noise and 0.3 steps of bend can give in one period of the comb.
 */
class AccuracyTest {

  private static final double STANDARD_OHM = 10;

  private record Errors(double median, double percentile95, double phaseDegrees95) {}

  private static SweepResult sweep(Workbench bench, SweepSettings settings) throws Exception {
    try (JigClient client = bench.connect()) {
      return assertInstanceOf(
          SweepResult.class, new QuickSweep(settings).run(client, SweepListener.NONE));
    }
  }

  /** Open, short and a known resistor on the same jig as the box. */
  private static SweepSettings calibrated(Workbench bench) throws Exception {
    SweepSettings plain = SweepSettings.standard().withoutSelfCheck();
    SweepResult open = sweep(bench.with(Workbench.open().box()), plain);
    SweepResult shorted = sweep(bench.with(Workbench.shorted().box()), plain);
    SweepResult standard = sweep(bench.with(Workbench.resistor(STANDARD_OHM).box()), plain);
    Outcome<Calibration> calibration =
        Calibration.of(
            "test-1",
            open,
            shorted,
            standard,
            STANDARD_OHM,
            OnePortCorrection.uncertaintyOfTolerance(STANDARD_OHM, 0.001));
    assertTrue(calibration instanceof Outcome.Found<Calibration>, calibration::toString);
    return plain.with(((Outcome.Found<Calibration>) calibration).value());
  }

  private static Errors errors(SweepResult result, DoubleFunction<Complex> truth, String which) {
    Outcome<ImpedanceCurve> outcome = result.measurement().curve();
    assertTrue(outcome instanceof Outcome.Found<ImpedanceCurve>, () -> which + outcome);
    ImpedanceCurve curve = ((Outcome.Found<ImpedanceCurve>) outcome).value();
    double[] modulus = new double[curve.points().size()];
    double[] phase = new double[modulus.length];
    for (int i = 0; i < modulus.length; i++) {
      ImpedancePoint point = curve.points().get(i);
      Complex ratio =
          new Complex(point.resistanceOhm(), point.reactanceOhm())
              .divide(truth.apply(point.frequencyHz()));
      modulus[i] = Math.abs(ratio.abs() - 1);
      phase[i] = Math.abs(Math.toDegrees(ratio.getArgument()));
    }
    Arrays.sort(modulus);
    Arrays.sort(phase);
    int at95 = (int) Math.ceil(0.95 * modulus.length) - 1;
    Errors errors = new Errors(modulus[modulus.length / 2], modulus[at95], phase[at95]);
    System.out.printf(
        Locale.ROOT,
        "%s: |Z| error %.3f %% median, %.3f %% at the 95th percentile, phase %.3f degrees,"
            + " %.2f s of jig time%n",
        which,
        100 * errors.median(),
        100 * errors.percentile95(),
        errors.phaseDegrees95(),
        result.jigSeconds());
    return errors;
  }

  private static void requireAim(Errors errors, String which) {
    assertTrue(errors.median() <= 0.005, () -> which + " " + errors);
    assertTrue(errors.percentile95() <= 0.010, () -> which + " " + errors);
    assertTrue(errors.phaseDegrees95() <= 0.6, () -> which + " " + errors); // 1 % of a radian
  }

  /** Clips of 50 milliohm stand in series until a calibration takes them out. */
  private static DoubleFunction<Complex> clipped(DoubleFunction<Complex> box) {
    return hz -> box.apply(hz).add(0.05);
  }

  private static Complex coil(double hz) {
    return new Complex(3.3, 2 * Math.PI * hz * 1e-3);
  }

  /**
   * A driver in free air without inductance: Z = Re + Re (Qms/Qes) / (1 + j Qms (f/fs - fs/f))
   * (Small, J. Audio Eng. Soc. 20 (1972), 383; from memory, and the closed forms that follow from
   * it hold on a solved circuit).
   */
  private static Complex freeAir(double hz) {
    double detuning = hz / 30 - 30 / hz;
    return new Complex(6 * 4 / 0.4).divide(new Complex(1, 4 * detuning)).add(6);
  }

  private static Box freeAirBox() {
    return Box.freeAir(Driver.ofParameters(Air.ROOM, 30, 4, 0.4, 100, 0.033, 6, 1));
  }

  @Test
  void aQuickSweepTakesAtMostThreeSecondsOfJigTimeWithoutTheLookAtTheBench() throws Exception {
    SweepResult result = sweep(Workbench.resistor(4), SweepSettings.standard().withoutSelfCheck());
    System.out.printf(Locale.ROOT, "quick sweep: %.3f s of jig time%n", result.jigSeconds());
    assertTrue(result.jigSeconds() <= 3, result.jigSeconds() + " s");
  }

  @Test
  void anExactJigWithAUsualConverterMeetsTheAimFromOneToAHundredOhm() throws Exception {
    SweepSettings plain = SweepSettings.standard().withoutSelfCheck();
    for (double ohm : new double[] {1, 2, 4, 8, 16, 32, 100}) {
      Workbench bench = Workbench.resistor(ohm).with(JigImperfections.nominal());
      String which = "exact jig, " + ohm + " ohm";
      requireAim(errors(sweep(bench, plain), clipped(hz -> new Complex(ohm)), which), which);
    }
    Workbench coil = Workbench.coil(3.3, 1e-3).with(JigImperfections.nominal());
    requireAim(errors(sweep(coil, plain), clipped(AccuracyTest::coil), "exact jig, coil"), "coil");
    Workbench driver = Workbench.of(freeAirBox()).with(JigImperfections.nominal());
    requireAim(
        errors(sweep(driver, plain), clipped(AccuracyTest::freeAir), "exact jig, driver"),
        "driver");
  }

  @Test
  void aJigOfFivePercentPartsMeetsTheAimOnceItIsCalibrated() throws Exception {
    for (long seed = 1; seed <= 3; seed++) {
      Workbench bench = Workbench.open().with(JigImperfections.typical(seed)).withSeed(seed);
      SweepSettings settings = calibrated(bench);
      for (double ohm : new double[] {1, 4, 8, 32, 100}) {
        String which = "calibrated jig " + seed + ", " + ohm + " ohm";
        SweepResult result = sweep(bench.with(Workbench.resistor(ohm).box()), settings);
        requireAim(errors(result, hz -> new Complex(ohm), which), which);
      }
      String which = "calibrated jig " + seed + ", driver";
      requireAim(
          errors(sweep(bench.with(freeAirBox()), settings), AccuracyTest::freeAir, which), which);
    }
  }
}
