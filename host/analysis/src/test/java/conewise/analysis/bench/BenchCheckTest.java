package conewise.analysis.bench;

import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.Samples;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class BenchCheckTest {

  private static final double[] HZ = Comb.standard().frequenciesHz();
  private static final double[] PHASE = new Random(1).doubles(HZ.length, 0, 6).toArray();
  private final BenchCheck check = BenchCheck.standard();

  @Test
  void aSteadyBoxOnAQuietBenchGivesNoFinding() {
    for (long seed = 0; seed < 8; seed++) {
      List<BenchFinding> findings = driven(t -> 6, t -> 0, 2e-3, seed);
      assertTrue(findings.isEmpty(), "seed " + seed + ": " + findings);
    }
  }

  @Test
  void aContactThatGainsResistanceHalfWayIsALooseClip() {
    assertHas(Kind.LOOSE_CLIP, true, driven(t -> t < 0.5 ? 6 : 7, t -> 0, 2e-3, 1));
  }

  @Test
  void aMomentOfOpenContactIsALooseClip() {
    assertHas(Kind.LOOSE_CLIP, true, driven(t -> t > 0.3 && t < 0.32 ? 60 : 6, t -> 0, 2e-3, 2));
  }

  @Test
  void humOfSixPercentIsNamedAndOfTwoPercentIsNot() {
    double effective = 6 * 0.1 * Math.sqrt(HZ.length / 2.0);
    for (double mains : new double[] {50, 60.02}) {
      DoubleUnaryOperator hum = t -> Math.sqrt(2) * effective * Math.cos(2 * Math.PI * mains * t);
      assertHas(Kind.HUM, false, driven(t -> 6, t -> 0.06 * hum.applyAsDouble(t), 2e-3, 3));
      List<BenchFinding> weak = driven(t -> 6, t -> 0.02 * hum.applyAsDouble(t), 2e-3, 3);
      assertFalse(kinds(weak).contains(Kind.HUM), weak.toString());
    }
  }

  @Test
  void noiseThatHidesTheImpedanceIsNamed() {
    assertHas(Kind.TOO_NOISY, true, driven(t -> 6, t -> 0, 2, 4));
  }

  @Test
  void openAndShortedTerminalsAreNamed() {
    assertHas(Kind.OPEN_TERMINALS, true, driven(t -> 5000, t -> 0, 0, 5));
    assertHas(Kind.SHORTED_TERMINALS, true, driven(t -> 0.1, t -> 0, 0, 5));
  }

  @Test
  void aDriveWithoutCurrentThatGivesNoCurveIsOpenTerminals() {
    Random random = new Random(6);
    Capture capture =
        new Capture(
            Samples.of(BenchCheckTest::drive, 8192, 0, 128e-6),
            Samples.noisy(Samples.of(t -> 0, 8192, 64e-6, 128e-6), 1e-5, random));
    BenchFinding finding = check.noCurve(capture, "the current is too small").orElseThrow();
    assertEquals(Kind.OPEN_TERMINALS, finding.kind());
    assertTrue(finding.sentence().contains("too small"));
  }

  @Test
  void saturatedSamplesBeyondOneInAThousandAreClipping() {
    double[] values = new double[4000];
    for (int k = 0; k < 4; k++) {
      values[1000 + k] = 2.5;
    }
    SampledChannel few = new SampledChannel(values, 0, 128e-6, -2.5, 2.5);
    assertTrue(check.clipping(new Capture(few, few)).isEmpty());
    double[] more = values.clone();
    more[2000] = -2.5;
    SampledChannel many = new SampledChannel(more, 0, 128e-6, -2.5, 2.5);
    List<BenchFinding> findings = check.clipping(new Capture(many, many));
    assertEquals(2, findings.size());
    assertTrue(findings.get(0).sentence().contains("5 of 4000 samples; at most 4"));
  }

  @Test
  void aChannelThatStandsAtItsRailThroughoutIsClippedAndGivesNoCurve() {
    double[] values = new double[2000];
    Arrays.fill(values, 2.5);
    SampledChannel stuck = new SampledChannel(values, 0, 128e-6, -2.5, 2.5);
    Capture capture = new Capture(stuck, stuck);
    assertEquals(2, check.clipping(capture).size());
    assertTrue(Samples.because(ImpedanceEstimator.estimate(capture, 50)).contains("too small"));
  }

  @Test
  void quietTerminalsAtRestGiveNoFinding() {
    assertTrue(check.idle(atRest(t -> 0.02 + 0.005 * Math.sin(314 * t), 2e-3)).isEmpty());
  }

  @Test
  void aBatteryAnAmplifierPlayingAndHumAtRestAreForeignVoltages() {
    List<BenchFinding> battery = check.idle(atRest(t -> 1.5, 2e-3));
    assertHas(Kind.FOREIGN_VOLTAGE, true, battery);
    assertTrue(battery.get(0).sentence().contains("1.50 V of DC"), battery.toString());
    List<BenchFinding> music =
        check.idle(atRest(t -> 0.3 * Math.sin(700 * t) + 0.2 * Math.sin(1100 * t * (1 + t)), 2e-3));
    assertTrue(music.get(0).sentence().contains("sound or noise"), music.toString());
    List<BenchFinding> hum = check.idle(atRest(t -> 0.2 * Math.sin(2 * Math.PI * 60 * t), 2e-3));
    assertTrue(hum.get(0).sentence().contains("60 Hz hum"), hum.toString());
    assertTrue(hum.get(0).nextStep().contains("amplifier"));
  }

  @Test
  void whatSpoilsAMeasurementComesFirst() {
    List<BenchFinding> findings =
        driven(t -> t < 0.5 ? 6 : 7, t -> 3 * Math.cos(2 * Math.PI * 50 * t), 2e-3, 7);
    assertTrue(findings.get(0).spoils());
    assertTrue(kinds(findings).contains(Kind.HUM), findings.toString());
  }

  @Test
  void capturesOfOneSampleGiveNoExceptions() {
    SampledChannel one = SampledChannel.of(new double[] {0}, 0, 1e-3);
    assertTrue(check.idle(new Capture(one, one)).isEmpty());
    assertTrue(check.clipping(new Capture(one, one)).isEmpty());
    assertTrue(check.noCurve(new Capture(one, one), "nothing").isEmpty());
  }

  @Test
  void limitsMustBePositive() {
    assertThrows(
        IllegalArgumentException.class, () -> new BenchLimits(0, 1, 1, 1, 1, 1, 1, 1, 1, 1));
  }

  private static double drive(double t) {
    double sum = 0;
    for (int k = 0; k < HZ.length; k++) {
      sum += 0.1 * Math.cos(2 * Math.PI * HZ[k] * t + PHASE[k]);
    }
    return sum;
  }

  private List<BenchFinding> driven(
      DoubleUnaryOperator ohm, DoubleUnaryOperator hum, double noiseVolt, long seed) {
    Random random = new Random(seed);
    SampledChannel volt =
        Samples.of(t -> ohm.applyAsDouble(t) * drive(t) + hum.applyAsDouble(t), 8192, 0, 128e-6);
    Capture capture =
        new Capture(
            Samples.noisy(volt, noiseVolt, random),
            Samples.noisy(
                Samples.of(BenchCheckTest::drive, 8192, 64e-6, 128e-6), noiseVolt / 10, random));
    ImpedanceEstimate estimate = found(ImpedanceEstimator.estimate(capture, HZ));
    return check.driven(capture, estimate);
  }

  private static Capture atRest(DoubleUnaryOperator volt, double noise) {
    Random random = new Random(10);
    return new Capture(
        Samples.noisy(Samples.of(volt, 2048, 0, 128e-6), noise, random),
        Samples.noisy(Samples.of(t -> 0, 2048, 64e-6, 128e-6), noise / 10, random));
  }

  private static List<Kind> kinds(List<BenchFinding> findings) {
    return findings.stream().map(BenchFinding::kind).toList();
  }

  private static void assertHas(Kind kind, boolean spoils, List<BenchFinding> findings) {
    assertTrue(
        findings.stream().anyMatch(f -> f.kind() == kind && f.spoils() == spoils),
        kind + " not in " + findings);
  }
}
