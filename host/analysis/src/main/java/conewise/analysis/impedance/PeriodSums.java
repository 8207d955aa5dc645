package conewise.analysis.impedance;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.FittedTone;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/**
 * Sums of voltage and current against the lines of a period, over some of its samples. Those of
 * parts that make up a whole period, together, are its discrete Fourier transform at the lines, and
 * what that leaves of the samples' power is noise (Parseval).
 */
final class PeriodSums {

  private final int period;
  private final int[] lines;
  private final Channel voltage;
  private final Channel current;
  private double products;
  private int count;

  /** Each line's e^(-j w n), n the number of the next sample. */
  private final double[] cosine;

  private final double[] sine;
  private final double[] turnCosine;
  private final double[] turnSine;

  /**
   * The instants of a record.
   *
   * @param voltageSeconds of the first sample of voltage
   * @param currentSeconds of the first sample of current
   * @param intervalSeconds between two of either
   */
  record Clock(double voltageSeconds, double currentSeconds, double intervalSeconds) {
    static Clock of(Capture first) {
      return new Clock(
          first.voltageVolt().firstInstantSeconds(),
          first.currentAmpere().firstInstantSeconds(),
          first.voltageVolt().intervalSeconds());
    }
  }

  /**
   * Sums of nothing.
   *
   * @param firstSample the number of the sample that comes first, in the record
   */
  PeriodSums(int period, int[] lines, int firstSample) {
    this.period = period;
    this.lines = lines;
    voltage = new Channel(lines.length);
    current = new Channel(lines.length);
    cosine = new double[lines.length];
    sine = new double[lines.length];
    turnCosine = new double[lines.length];
    turnSine = new double[lines.length];
    for (int i = 0; i < lines.length; i++) {
      double turn = -2 * Math.PI * lines[i] / period;
      int inPeriod = Math.floorMod((long) lines[i] * firstSample, period);
      cosine[i] = Math.cos(2 * Math.PI * inPeriod / period);
      sine[i] = -Math.sin(2 * Math.PI * inPeriod / period);
      turnCosine[i] = Math.cos(turn);
      turnSine[i] = Math.sin(turn);
    }
  }

  /** The sums of all parts, which are left as they are. */
  static PeriodSums together(Collection<PeriodSums> parts, PeriodSums empty) {
    for (PeriodSums part : parts) {
      empty.voltage.add(part.voltage);
      empty.current.add(part.current);
      empty.products += part.products;
      empty.count += part.count;
    }
    return empty;
  }

  void add(double volt, double ampere) {
    voltage.add(volt, cosine, sine);
    current.add(ampere, cosine, sine);
    products += volt * ampere;
    count++;
    for (int i = 0; i < cosine.length; i++) {
      double turned = cosine[i] * turnCosine[i] - sine[i] * turnSine[i];
      sine[i] = cosine[i] * turnSine[i] + sine[i] * turnCosine[i];
      cosine[i] = turned;
    }
  }

  /** The impedance at each line, none where the current is too small; of a whole period only. */
  List<Optional<ImpedancePoint>> points(Clock clock) {
    if (count != period) {
      throw new IllegalStateException(
          "the sums hold " + count + " samples; a whole period has " + period);
    }
    double voltageNoise = voltage.noise();
    double currentNoise = current.noise();
    double both = Math.sqrt(voltageNoise * currentNoise) * freedom();
    double correlation = both > 0 ? Math.max(-1, Math.min(1, shared() / both)) : 0;
    List<Optional<ImpedancePoint>> points = new ArrayList<>(lines.length);
    for (int i = 0; i < lines.length; i++) {
      double hz = lines[i] / (period * clock.intervalSeconds());
      FittedTone v = voltage.tone(i, hz, clock.voltageSeconds(), voltageNoise);
      FittedTone c = current.tone(i, hz, clock.currentSeconds(), currentNoise);
      points.add(
          ImpedanceEstimator.isEnough(c)
              ? Optional.of(ImpedanceEstimator.ratio(v, c, correlation))
              : Optional.empty());
    }
    return points;
  }

  private int freedom() {
    return period - 2 * lines.length - 1;
  }

  /** The sum of the products of what the lines leave of both channels. */
  private double shared() {
    double left = products - voltage.sum * current.sum / period;
    for (int i = 0; i < lines.length; i++) {
      left -=
          2
              * (voltage.real[i] * current.real[i] + voltage.imaginary[i] * current.imaginary[i])
              / period;
    }
    return left;
  }

  /** One channel's sums. */
  private final class Channel {
    private final double[] real;
    private final double[] imaginary;
    private double sum;
    private double squares;

    Channel(int count) {
      real = new double[count];
      imaginary = new double[count];
    }

    void add(double value, double[] cosines, double[] sines) {
      sum += value;
      squares += value * value;
      for (int i = 0; i < real.length; i++) {
        real[i] += value * cosines[i];
        imaginary[i] += value * sines[i];
      }
    }

    void add(Channel other) {
      sum += other.sum;
      squares += other.squares;
      for (int i = 0; i < real.length; i++) {
        real[i] += other.real[i];
        imaginary[i] += other.imaginary[i];
      }
    }

    /** The variance of a sample about what the lines and an offset explain. */
    double noise() {
      double left = squares - sum * sum / period;
      for (int i = 0; i < real.length; i++) {
        left -= 2 * (real[i] * real[i] + imaginary[i] * imaginary[i]) / period;
      }
      return Math.max(0, left) / freedom();
    }

    FittedTone tone(int i, double hz, double firstInstantSeconds, double noise) {
      double angle = -2 * Math.PI * hz * firstInstantSeconds;
      Complex atFirst = new Complex(2 * real[i] / period, 2 * imaginary[i] / period);
      Complex atZero = atFirst.multiply(new Complex(Math.cos(angle), Math.sin(angle)));
      double variance = 2 * noise / period;
      return new FittedTone(hz, atZero, variance, variance, 0, noise);
    }
  }
}
