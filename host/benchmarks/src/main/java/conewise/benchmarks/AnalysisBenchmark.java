package conewise.benchmarks;

import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.spectrum.CrossSpectra;
import conewise.analysis.spectrum.SpectralEstimate;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The three tasks that a bench waits for, each from samples in memory to impedance. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class AnalysisBenchmark {

  /** Pairs of the one-tone and of the comb task. */
  static final int PAIRS = 8192;

  /** Pairs of the spectrum task: 60 s at 48 kHz. */
  static final int SPECTRUM_PAIRS = 60 * 48_000;

  private static final double TONE_HZ = 34 / 1.048576;

  private final double[] combHz = Comb.standard().frequenciesHz();
  private final Capture tone = played(TONE_HZ);
  private final Capture comb = played(combHz);
  private final Capture noise = noise();

  /** One tone's fit of both channels, with variances and the noise beside the tone. */
  @Benchmark
  public Outcome<ImpedanceEstimate> oneTone() {
    return ImpedanceEstimator.estimate(tone, TONE_HZ);
  }

  /** A quick sweep's comb, likewise. */
  @Benchmark
  public Outcome<ImpedanceEstimate> comb() {
    return ImpedanceEstimator.estimate(comb, combHz);
  }

  /** A minute of noise at 48 kHz. */
  @Benchmark
  public Outcome<SpectralEstimate> minuteOfNoise() {
    return CrossSpectra.estimate(noise);
  }

  private static Capture played(double... hz) {
    Random random = new Random(1);
    double[] volt = new double[PAIRS];
    double[] ampere = new double[PAIRS];
    for (double f : hz) {
      double phase = 6 * random.nextDouble();
      for (int k = 0; k < PAIRS; k++) {
        volt[k] += 6 * Math.cos(2 * Math.PI * f * 128e-6 * k + phase);
        ampere[k] += Math.cos(2 * Math.PI * f * (128e-6 * k + 64e-6) + phase);
      }
    }
    for (int k = 0; k < PAIRS; k++) {
      volt[k] += 0.01 * random.nextGaussian();
      ampere[k] += 0.002 * random.nextGaussian();
    }
    return new Capture(
        SampledChannel.of(volt, 0, 128e-6), SampledChannel.of(ampere, 64e-6, 128e-6));
  }

  private static Capture noise() {
    Random random = new Random(2);
    double[] volt = new double[SPECTRUM_PAIRS];
    double[] ampere = new double[SPECTRUM_PAIRS];
    for (int k = 0; k < SPECTRUM_PAIRS; k++) {
      ampere[k] = random.nextGaussian();
      volt[k] = 6 * ampere[k] + 0.1 * random.nextGaussian();
    }
    return new Capture(
        SampledChannel.of(volt, 0, 1 / 48e3), SampledChannel.of(ampere, 0, 1 / 48e3));
  }
}
