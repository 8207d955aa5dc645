package conewise.analysis.sampling;

import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.complex.Complex;

/**
 * A channel as an offset, an optional steady drift, any number of tones of known frequency, and
 * what is left over: linear least squares on the true instants (IEEE Std 1057, the three-parameter
 * sine fit, for many tones at once).
 *
 * @param offset the constant part at the middle of the record, in the channel's unit
 * @param driftPerSecond the steady drift, in the channel's unit a second; 0 when none was fitted
 * @param tones the tones, in the order in which their frequencies were given
 * @param residualVariance sum of squared residuals over the degrees of freedom, in unit squared
 * @param residuals what no tone explains, one value a sample; not copied, not to be written to
 */
@SuppressWarnings("ArrayRecordComponent") // as in SampledChannel: nobody compares fits
public record ToneFit(
    double offset,
    double driftPerSecond,
    List<FittedTone> tones,
    double residualVariance,
    double[] residuals) {

  /** What is fitted besides the tones. */
  public enum Baseline {
    /** A constant. */
    OFFSET,
    /** A constant and a steady drift. */
    OFFSET_AND_DRIFT
  }

  public ToneFit {
    tones = List.copyOf(tones);
  }

  /** Fits with a constant offset. See {@link #of(SampledChannel, double[], Baseline)}. */
  public static Outcome<ToneFit> of(SampledChannel channel, double... frequenciesHz) {
    return of(channel, frequenciesHz, Baseline.OFFSET);
  }

  /**
   * Fits tones of known frequency.
   *
   * <p>The variance of each tone comes from the residuals of the whole record or from those next to
   * the tone, whichever shows more noise than chance allows: hum and nonlinearity are not white.
   *
   * @param channel the samples; saturated ones are used like any other (see the bench's findings)
   * @param frequenciesHz at least one frequency, in hertz, in any order
   * @param baseline what is fitted besides
   * @return the fit; or no result, with the reason: no frequency, one that is not above 0 and below
   *     half the sampling rate, too few samples, tones too close (or too slow) for the record
   */
  public static Outcome<ToneFit> of(
      SampledChannel channel, double[] frequenciesHz, Baseline baseline) {
    String objection = objection(channel, frequenciesHz, baseline);
    if (!objection.isEmpty()) {
      return Outcome.none(objection);
    }
    int length = channel.length();
    double[] radians = new double[frequenciesHz.length];
    Projection[] projections = new Projection[radians.length];
    for (int i = 0; i < radians.length; i++) {
      radians[i] = 2 * Math.PI * frequenciesHz[i] * channel.intervalSeconds();
      projections[i] = new Projection(length, radians[i]);
    }
    Outcome<CentredGram> gram =
        CentredGram.of(length, radians, baseline == Baseline.OFFSET_AND_DRIFT);
    if (gram instanceof Outcome.Found<CentredGram> found) {
      return Outcome.found(solve(channel, frequenciesHz, projections, found.value()));
    }
    String because = ((Outcome.NoResult<CentredGram>) gram).because();
    return Outcome.none(tooClose(channel, frequenciesHz, because));
  }

  private static ToneFit solve(
      SampledChannel channel, double[] frequenciesHz, Projection[] projections, CentredGram gram) {
    int tones = projections.length;
    double[] residuals = channel.values().clone();
    // Fitting about the mean keeps a large offset from costing digits.
    double mean = sum(residuals) / residuals.length;
    for (int k = 0; k < residuals.length; k++) {
      residuals[k] -= mean;
    }
    double[] even = new double[tones + 1];
    double[] odd = new double[gram.oddSize()];
    even[tones] = sum(residuals);
    for (int i = 0; i < tones; i++) {
      Complex sums = projections[i].of(residuals);
      even[i] = sums.getReal();
      odd[i] = sums.getImaginary();
    }
    double middle = (residuals.length - 1) / 2.0;
    if (gram.hasDrift()) {
      for (int k = 0; k < residuals.length; k++) {
        odd[tones] += (k - middle) * residuals[k];
      }
    }
    double[] cosines = gram.solveEven(even);
    double[] sines = gram.solveOdd(odd);
    double slope = gram.hasDrift() ? sines[tones] : 0;
    for (int k = 0; k < residuals.length; k++) {
      residuals[k] -= cosines[tones] + slope * (k - middle);
    }
    for (int i = 0; i < tones; i++) {
      projections[i].subtract(cosines[i], sines[i], residuals);
    }
    double squares = 0;
    for (double residual : residuals) {
      squares += residual * residual;
    }
    double variance = squares / (residuals.length - even.length - odd.length);
    NoiseNearTones noise =
        new NoiseNearTones(residuals, channel.intervalSeconds(), frequenciesHz, variance);
    double middleSeconds = channel.firstInstantSeconds() + middle * channel.intervalSeconds();
    List<FittedTone> fitted = new ArrayList<>(tones);
    for (int i = 0; i < tones; i++) {
      double near = noise.varianceNear(frequenciesHz[i]);
      fitted.add(
          atCommonClock(
              frequenciesHz[i],
              new Complex(cosines[i], -sines[i]),
              gram.evenInverse(i) * near,
              gram.oddInverse(i) * near,
              near,
              middleSeconds));
    }
    return new ToneFit(
        mean + cosines[tones], slope / channel.intervalSeconds(), fitted, variance, residuals);
  }

  private static double sum(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value;
    }
    return sum;
  }

  /** Turns a phasor and its covariance from the middle of the record to t = 0. */
  private static FittedTone atCommonClock(
      double frequencyHz,
      Complex atMiddle,
      double varianceReal,
      double varianceImaginary,
      double noise,
      double middleSeconds) {
    double angle = -2 * Math.PI * frequencyHz * middleSeconds;
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    return new FittedTone(
        frequencyHz,
        atMiddle.multiply(new Complex(c, s)),
        c * c * varianceReal + s * s * varianceImaginary,
        s * s * varianceReal + c * c * varianceImaginary,
        c * s * (varianceReal - varianceImaginary),
        noise);
  }

  private static String objection(
      SampledChannel channel, double[] frequenciesHz, Baseline baseline) {
    if (frequenciesHz.length == 0) {
      return "no frequency was given to fit; at least one is needed";
    }
    double nyquistHz = 0.5 / channel.intervalSeconds();
    for (double frequencyHz : frequenciesHz) {
      if (!(frequencyHz > 0 && frequencyHz < nyquistHz)) {
        return String.format(
            Locale.ROOT,
            "a tone of %s Hz cannot be fitted: it must lie above 0 and below half the sampling"
                + " rate, %.6g Hz",
            frequencyHz,
            nyquistHz);
      }
    }
    int unknowns = 2 * frequenciesHz.length + (baseline == Baseline.OFFSET ? 1 : 2);
    if (channel.length() <= unknowns) {
      return String.format(
          Locale.ROOT,
          "%d samples are too few for %d tones: more than %d are needed; record for longer",
          channel.length(),
          frequenciesHz.length,
          unknowns);
    }
    return "";
  }

  private static String tooClose(SampledChannel channel, double[] frequenciesHz, String because) {
    double[] sorted = frequenciesHz.clone();
    Arrays.sort(sorted);
    double before = 0;
    double closest = sorted[0];
    for (int i = 1; i < sorted.length; i++) {
      if (sorted[i] - sorted[i - 1] < closest - before) {
        before = sorted[i - 1];
        closest = sorted[i];
      }
    }
    return String.format(
        Locale.ROOT,
        "a record of %.6g s cannot tell %.6g Hz from %.6g Hz (%s); record for longer",
        channel.durationSeconds(),
        before,
        closest,
        because);
  }
}
