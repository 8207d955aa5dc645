package conewise.analysis.impedance;

import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.excitation.Comb;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class RunningEstimateTest {

  private static final Comb COMB = Comb.standard();
  private static final int PERIOD = 8192;
  private static final int EIGHTH = PERIOD / RunningEstimate.PARTS;
  private static final double PAIR = 128e-6;
  private static final double FIRST = 0.5243;
  private static final double DELAY = 64e-6;
  private static final double RAIL = 10;

  private final long seed = new Random().nextLong();
  private final Random random = new Random(seed);

  /** A coil of 5 ohm and 2 mH beside a resonance at 42 Hz: closed forms of any circuits text. */
  private static Complex box(double hz) {
    Complex detuning = new Complex(1, 5 * (hz / 42 - 42 / hz));
    return new Complex(5, 2 * Math.PI * hz * 2e-3).add(new Complex(30).divide(detuning));
  }

  /** The comb as a current of about 0.1 A, through the box in its steady state. */
  private Capture steady(int frames, double voltNoise, double ampereNoise) {
    double[] volt = new double[frames];
    double[] ampere = new double[frames];
    for (double hz : COMB.frequenciesHz()) {
      double phase = 2 * Math.PI * random.nextDouble();
      Complex z = box(hz);
      double w = 2 * Math.PI * hz;
      for (int k = 0; k < frames; k++) {
        double t = FIRST + k * PAIR;
        volt[k] += 0.01 * z.abs() * Math.cos(w * t + phase + z.getArgument());
        ampere[k] += 0.01 * Math.cos(w * (t + DELAY) + phase);
      }
    }
    for (int k = 0; k < frames; k++) {
      volt[k] += 0.3 + voltNoise * random.nextGaussian();
      ampere[k] += 0.02 + ampereNoise * random.nextGaussian();
    }
    return new Capture(channel(volt, 0), channel(ampere, DELAY));
  }

  private static SampledChannel channel(double[] values, double delay) {
    return new SampledChannel(values, FIRST + delay, PAIR, -RAIL, RAIL);
  }

  private static Capture piece(Capture whole, int from, int to) {
    return new Capture(
        piece(whole.voltageVolt(), from, to), piece(whole.currentAmpere(), from, to));
  }

  private static SampledChannel piece(SampledChannel whole, int from, int to) {
    return new SampledChannel(
        Arrays.copyOfRange(whole.values(), from, to),
        whole.firstInstantSeconds() + from * whole.intervalSeconds(),
        whole.intervalSeconds(),
        whole.lowRail(),
        whole.highRail());
  }

  private static RunningEstimate running() {
    return new RunningEstimate(PERIOD, COMB.lines());
  }

  /** Every curve that comes of a record given in pieces, and after how many samples. */
  private static List<ImpedanceCurve> curves(Capture whole, int inPiece, List<Integer> when) {
    RunningEstimate running = running();
    List<ImpedanceCurve> curves = new ArrayList<>();
    int frames = whole.voltageVolt().length();
    for (int from = 0; from < frames; from += inPiece) {
      int to = Math.min(frames, from + inPiece);
      if (running.add(piece(whole, from, to))) {
        curves.add(running.curve().orElseThrow());
        when.add(to);
      }
    }
    return curves;
  }

  private static double distance(ImpedancePoint one, ImpedancePoint other) {
    return Math.hypot(
        one.resistanceOhm() - other.resistanceOhm(), one.reactanceOhm() - other.reactanceOhm());
  }

  @Test
  void aCurveStandsAfterNineEighthsOfAPeriodAndAnewEachEighth() {
    List<Integer> when = new ArrayList<>();
    curves(steady(2 * PERIOD, 1e-3, 1e-4), 16, when);
    assertEquals(
        List.of(9, 10, 11, 12, 13, 14, 15, 16),
        when.stream().map(frames -> frames / EIGHTH).toList());
    assertTrue(when.stream().allMatch(frames -> frames % EIGHTH == 0), when::toString);
  }

  /** The fit of tones by least squares goes another way to the same figures. */
  @Test
  void eachCurveIsThatOfAFitOfTheLatestPeriodWithTheChangeInItsUncertainty() {
    Capture whole = steady(2 * PERIOD, 1e-3, 1e-4);
    List<ImpedanceCurve> curves = curves(whole, 16, new ArrayList<>());
    int held = 0;
    for (int each = 0; each < curves.size(); each++) {
      ImpedanceEstimate now = fit(whole, each + 1);
      List<ImpedancePoint> before = fit(whole, each).curve().points();
      for (int i = 0; i < before.size(); i++) {
        ImpedancePoint point = curves.get(each).points().get(i);
        ImpedancePoint fitted = now.curve().points().get(i);
        assertEquals(fitted.frequencyHz(), point.frequencyHz(), 1e-9);
        assertEquals(0, distance(fitted, point), 1e-8, "seed " + seed);
        if (isWhite(now, i)) {
          double change = distance(before.get(i), fitted);
          ImpedanceUncertainty noise = fitted.uncertainty().orElseThrow();
          ImpedanceUncertainty told = point.uncertainty().orElseThrow();
          double both = noise.varianceResistance() + 4 * change * change;
          assertEquals(both, told.varianceResistance(), 1e-6 * both, "seed " + seed);
          assertEquals(noise.covariance(), told.covariance(), 1e-6 * both, "seed " + seed);
          held++;
        }
      }
    }
    assertTrue(held > 500, held + " points were held, seed " + seed);
  }

  private static ImpedanceEstimate fit(Capture whole, int eighths) {
    Capture period = piece(whole, eighths * EIGHTH, eighths * EIGHTH + PERIOD);
    return found(ImpedanceEstimator.estimate(period, COMB.frequenciesHz()));
  }

  /** The fit looks at the noise next to each tone as well, which a running sum does not. */
  private static boolean isWhite(ImpedanceEstimate fit, int tone) {
    return fit.voltage().tones().get(tone).noiseVariance() == fit.voltage().residualVariance()
        && fit.current().tones().get(tone).noiseVariance() == fit.current().residualVariance();
  }

  @Test
  void howTheRecordIsCutIntoPiecesDoesNotMatter() {
    Capture whole = steady(PERIOD + 2 * EIGHTH, 1e-3, 1e-4);
    ImpedanceCurve blocks = last(curves(whole, 16, new ArrayList<>()));
    for (int inPiece : new int[] {1, 17, PERIOD + 2 * EIGHTH}) {
      assertEquals(blocks, last(curves(whole, inPiece, new ArrayList<>())), inPiece + ", " + seed);
    }
  }

  private static ImpedanceCurve last(List<ImpedanceCurve> curves) {
    return curves.get(curves.size() - 1);
  }

  /** Of 95 % intervals, each of R and X, 95 in 100 hold the truth; here the noise is all. */
  @Test
  void theIntervalHoldsTheTruthAtLeastAsOftenAsItSays() {
    int inside = 0;
    int all = 0;
    for (ImpedanceCurve curve : curves(steady(2 * PERIOD, 3e-3, 3e-4), 16, new ArrayList<>())) {
      for (ImpedancePoint point : curve.points()) {
        inside += isWithin(point, box(point.frequencyHz())) ? 1 : 0;
        all++;
      }
    }
    double share = (double) inside / all;
    System.out.printf(Locale.ROOT, "within noise: %.3f of %d, seed %d%n", share, all, seed);
    assertTrue(share >= 0.95, share + " of " + all + ", seed " + seed);
  }

  /** The radius that holds 95 % of two equal and independent normal parts: 5.991, chi-square. */
  private static boolean isWithin(ImpedancePoint point, Complex truth) {
    double u = point.uncertainty().orElseThrow().standardUncertaintyOhm();
    double away = truth.subtract(new Complex(point.resistanceOhm(), point.reactanceOhm())).abs();
    return away <= Math.sqrt(5.991) * u;
  }

  /**
   * A ring of the box at 23.4 Hz, as strong as its tones, that dies off to 1/e within up to half a
   * period; no noise hides it.
   */
  @Test
  void theIntervalHoldsWhatIsMissingWhileTheBoxStillRings() {
    for (double inPeriods : new double[] {0.1, 0.2, 0.3, 0.4, 0.5}) {
      double lifetime = inPeriods * PERIOD * PAIR;
      Capture whole = steady(2 * PERIOD, 1e-7, 1e-8);
      add(whole, t -> 0.3 * Math.exp(-(t - FIRST) / lifetime) * Math.cos(147 * t));
      for (ImpedanceCurve curve : curves(whole, 16, new ArrayList<>())) {
        for (ImpedancePoint point : curve.points()) {
          Complex truth = box(point.frequencyHz());
          assertTrue(isWithin(point, truth), () -> inPeriods + ": " + point + " of " + truth);
        }
      }
      double away = distance(fit(whole, 1).curve().points().get(13), truth(13));
      assertTrue(inPeriods < 0.3 || away > 0.1, "the ring was too weak to tell: " + away);
    }
  }

  private static ImpedancePoint truth(int tone) {
    double hz = COMB.frequenciesHz()[tone];
    return new ImpedancePoint(hz, box(hz).getReal(), box(hz).getImaginary(), Optional.empty());
  }

  private static void add(Capture whole, DoubleUnaryOperator volt) {
    double[] values = whole.voltageVolt().values();
    for (int k = 0; k < values.length; k++) {
      values[k] += volt.applyAsDouble(FIRST + k * PAIR);
    }
  }

  /** Both mains frequencies, which stand 0.6 of a line or more from any tone. */
  @Test
  void theIntervalHoldsWhatHumDoesToIt() {
    Capture whole = steady(2 * PERIOD, 1e-7, 1e-8);
    double phase = 2 * Math.PI * random.nextDouble();
    add(whole, t -> 0.05 * Math.cos(2 * Math.PI * 50.02 * t + phase));
    add(whole, t -> 0.05 * Math.cos(2 * Math.PI * 59.98 * t + phase));
    for (ImpedanceCurve curve : curves(whole, 16, new ArrayList<>())) {
      for (ImpedancePoint point : curve.points()) {
        assertTrue(isWithin(point, box(point.frequencyHz())), () -> point + ", seed " + seed);
      }
    }
  }

  @Test
  void aSampleAtARailTakesTheCurveAwayForGood() {
    Capture whole = steady(2 * PERIOD, 1e-3, 1e-4);
    whole.currentAmpere().values()[PERIOD + 2 * EIGHTH + 5] = RAIL;
    RunningEstimate running = running();
    assertTrue(running.add(piece(whole, 0, PERIOD + 2 * EIGHTH)));
    assertTrue(running.curve().isPresent());
    assertTrue(running.add(piece(whole, PERIOD + 2 * EIGHTH, PERIOD + 3 * EIGHTH)));
    assertEquals(Optional.empty(), running.curve());
    assertFalse(running.add(piece(whole, PERIOD + 3 * EIGHTH, 2 * PERIOD)));
    assertEquals(Optional.empty(), running.curve());
  }

  @Test
  void aCurrentThatIsOnlyNoiseGivesNoCurve() {
    double[] volt = random.doubles(2 * PERIOD, -1, 1).toArray();
    double[] ampere = random.doubles(2 * PERIOD, -1e-3, 1e-3).toArray();
    Capture noise = new Capture(channel(volt, 0), channel(ampere, DELAY));
    assertEquals(List.of(), curves(noise, 16, new ArrayList<>()), "seed " + seed);
  }

  @Test
  void aPeriodThatCannotBeCutIsRefusedWithItsLength() {
    for (int frames : new int[] {PERIOD + 1, 160}) {
      String message =
          assertThrows(
                  IllegalArgumentException.class, () -> new RunningEstimate(frames, COMB.lines()))
              .getMessage();
      assertTrue(message.contains("has " + frames + " samples"), message);
    }
  }
}
