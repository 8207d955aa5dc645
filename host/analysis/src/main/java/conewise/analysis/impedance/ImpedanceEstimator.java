package conewise.analysis.impedance;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.FittedTone;
import conewise.analysis.sampling.ToneFit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * From a capture driven with known tones to the impedance at each: Z = V/I of the fitted phasors,
 * both on the common clock, with the covariance of R and X (JCGM 100, 5.2).
 */
public final class ImpedanceEstimator {

  /**
   * The current must stand at least this many of its standard uncertainties above nothing. Below, a
   * ratio is no longer nearly linear in its noise: its mean is off by more than 1 % and its
   * variance means little.
   */
  public static final double LOWEST_CURRENT_TO_NOISE = 10;

  private ImpedanceEstimator() {}

  /**
   * Estimates the impedance at each frequency.
   *
   * @param capture voltage and current
   * @param frequenciesHz the frequencies played, in hertz, in any order; their harmonics and mains
   *     hum, where they matter, belong to {@code nuisanceHz}
   * @return the estimate; or no result, with the reason, when the tones cannot be fitted (see
   *     {@link ToneFit}) or when the current is too small at every one of them
   */
  public static Outcome<ImpedanceEstimate> estimate(Capture capture, double... frequenciesHz) {
    return estimate(capture, frequenciesHz, new double[0]);
  }

  /**
   * Estimates the impedance at each frequency while tones that are known to be there, but say
   * nothing of the box, are fitted beside: mains hum, harmonics.
   *
   * @param capture voltage and current
   * @param frequenciesHz the frequencies played, in hertz
   * @param nuisanceHz frequencies fitted and thrown away, in hertz
   * @return as {@link #estimate(Capture, double...)}
   */
  public static Outcome<ImpedanceEstimate> estimate(
      Capture capture, double[] frequenciesHz, double[] nuisanceHz) {
    double[] played = frequenciesHz.clone();
    Arrays.sort(played);
    double[] all = Arrays.copyOf(played, played.length + nuisanceHz.length);
    System.arraycopy(nuisanceHz, 0, all, played.length, nuisanceHz.length);
    Outcome<ToneFit> voltage = ToneFit.of(capture.voltageVolt(), all);
    if (!(voltage instanceof Outcome.Found<ToneFit> voltageFit)) {
      return Outcome.none("voltage: " + ((Outcome.NoResult<ToneFit>) voltage).because());
    }
    Outcome<ToneFit> current = ToneFit.of(capture.currentAmpere(), all);
    if (!(current instanceof Outcome.Found<ToneFit> currentFit)) {
      return Outcome.none("current: " + ((Outcome.NoResult<ToneFit>) current).because());
    }
    return divide(voltageFit.value(), currentFit.value(), played.length);
  }

  private static Outcome<ImpedanceEstimate> divide(ToneFit voltage, ToneFit current, int played) {
    double correlation = correlation(voltage.residuals(), current.residuals());
    List<ImpedancePoint> points = new ArrayList<>(played);
    List<ImpedanceEstimate.LeftOut> leftOut = new ArrayList<>();
    for (int i = 0; i < played; i++) {
      FittedTone v = voltage.tones().get(i);
      FittedTone c = current.tones().get(i);
      if (isEnough(c)) {
        points.add(ratio(v, c, correlation));
      } else {
        leftOut.add(new ImpedanceEstimate.LeftOut(c.frequencyHz(), tooSmall(c)));
      }
    }
    if (points.isEmpty()) {
      return Outcome.none(
          "no impedance at any of "
              + played
              + " frequencies, for the current is"
              + " too small everywhere; at the first, "
              + leftOut.get(0).because());
    }
    return Outcome.found(
        new ImpedanceEstimate(new ImpedanceCurve(points), leftOut, voltage, current));
  }

  /** Whether a current stands far enough above its noise to be divided by. */
  static boolean isEnough(FittedTone current) {
    return current.amplitude() > 0
        && current.amplitude() >= LOWEST_CURRENT_TO_NOISE * current.standardUncertainty();
  }

  /**
   * Z = V/I.
   *
   * @param correlation of the two channels' noise, -1 to 1
   */
  static ImpedancePoint ratio(FittedTone v, FittedTone c, double correlation) {
    double[][] covariance = {
      {v.varianceReal(), v.covariance(), 0, 0},
      {v.covariance(), v.varianceImaginary(), 0, 0},
      {0, 0, c.varianceReal(), c.covariance()},
      {0, 0, c.covariance(), c.varianceImaginary()}
    };
    for (int part = 0; part < 2; part++) {
      double shared =
          correlation * Math.sqrt(covariance[part][part] * covariance[part + 2][part + 2]);
      covariance[part][part + 2] = shared;
      covariance[part + 2][part] = shared;
    }
    return RatioPropagation.point(v.frequencyHz(), v.phasor(), c.phasor(), covariance);
  }

  /**
   * The correlation of the two channels' residuals, -1 to 1; 0 when either has none. Noise that
   * both share is slow against the delay between them, or it would not be shared: so it counts as
   * simultaneous.
   */
  private static double correlation(double[] voltage, double[] current) {
    double vv = 0;
    double cc = 0;
    double vc = 0;
    for (int k = 0; k < voltage.length; k++) {
      vv += voltage[k] * voltage[k];
      cc += current[k] * current[k];
      vc += voltage[k] * current[k];
    }
    return vv > 0 && cc > 0 ? Math.max(-1, Math.min(1, vc / Math.sqrt(vv * cc))) : 0;
  }

  private static String tooSmall(FittedTone current) {
    return String.format(
        Locale.ROOT,
        "the current at %.4g Hz is %.3g A with a standard uncertainty of %.2g A; it must be at"
            + " least %.0f times that",
        current.frequencyHz(),
        current.amplitude(),
        current.standardUncertainty(),
        LOWEST_CURRENT_TO_NOISE);
  }

  /**
   * The DC resistance from two levels of a DC step: the difference cancels the offsets of both
   * channels.
   *
   * @param first a capture at one level, long enough after the step to have settled
   * @param second a capture at another
   * @return a point at 0 Hz with reactance 0; or no result when the two currents differ by too
   *     little
   */
  public static Outcome<ImpedancePoint> dcResistance(Capture first, Capture second) {
    MeanOf v1 = MeanOf.samples(first.voltageVolt().values());
    MeanOf v2 = MeanOf.samples(second.voltageVolt().values());
    MeanOf i1 = MeanOf.samples(first.currentAmpere().values());
    MeanOf i2 = MeanOf.samples(second.currentAmpere().values());
    double current = i2.mean() - i1.mean();
    double currentVariance = i1.variance() + i2.variance();
    if (!(Math.abs(current) > LOWEST_CURRENT_TO_NOISE * Math.sqrt(currentVariance))) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "no DC resistance, for the current changed by %.3g A between the two levels with a"
                  + " standard uncertainty of %.2g A; it must change by more than %.0f times that",
              current,
              Math.sqrt(currentVariance),
              LOWEST_CURRENT_TO_NOISE));
    }
    double resistance = (v2.mean() - v1.mean()) / current;
    double variance =
        (v1.variance() + v2.variance() + resistance * resistance * currentVariance)
            / (current * current);
    return Outcome.found(
        new ImpedancePoint(
            0, resistance, 0, Optional.of(new ImpedanceUncertainty(variance, 0, 0))));
  }

  /** A mean and its variance, the latter from the samples' scatter. */
  private record MeanOf(double mean, double variance) {
    static MeanOf samples(double[] values) {
      double mean = Arrays.stream(values).average().orElseThrow();
      double squares = Arrays.stream(values).map(x -> (x - mean) * (x - mean)).sum();
      int n = values.length;
      return new MeanOf(mean, n > 1 ? squares / (n - 1) / n : Double.POSITIVE_INFINITY);
    }
  }
}
