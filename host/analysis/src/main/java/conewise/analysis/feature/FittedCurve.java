package conewise.analysis.feature;

import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealVector;

/**
 * What a fitted sum of resonances says of a box, with intervals that include the sum's own bias.
 */
record FittedCurve(ResonanceFit fit, Optional<ResonanceFit> pair, double noise) {

  private static final double COVERAGE_FACTOR = 1.96;

  /**
   * Half-width that unequal drivers, coils that are no power law and split losses add to the
   * tuning's interval, relative; found by the held-out boxes of the tests.
   */
  private static final double TUNING_BIAS = 0.008;

  /** The same for the resistance: what lies below the range is guessed from the form. */
  private static final double RESISTANCE_BIAS = 0.008;

  /** A sum that leaves more than this over is not the curve's form. */
  private static final double MOST_RESIDUAL = 0.06;

  /** The same for a resonance. */
  private static final double RESONANCE_BIAS = 0.005;

  /** What each part of misfit beyond noise adds to the biases; from coils of another form. */
  private static final double TUNING_PER_MISFIT = 1.5;

  private static final double RESISTANCE_PER_MISFIT = 2;

  /** Relative misfit beyond noise from which the coil is certainly of another form. */
  private static final double TELLING_MISFIT = 0.0035;

  /** What is left over scatters about the noise by a tenth or so; this much is still noise. */
  private static final double NOISE_MARGIN = 1.25;

  private static final double STEP = 1e-5;
  private static final int PEAK_GRID = 600;

  double relativeResidual() {
    return fit.relativeResidual();
  }

  private static Optional<String> misfit(ResonanceFit fit) {
    return fit.relativeResidual() > MOST_RESIDUAL
        ? Optional.of(
            String.format(
                Locale.ROOT,
                "a coil and %d resonances leave %.1f %% of the curve over; at most %.0f %% may be",
                fit.shape().resonances(),
                100 * fit.relativeResidual(),
                100 * MOST_RESIDUAL))
        : Optional.empty();
  }

  Outcome<Estimate> dcResistanceOhm() {
    return misfit(fit)
        .<Outcome<Estimate>>map(Outcome::none)
        .orElseGet(() -> Outcome.found(resistance()));
  }

  /**
   * A coil that is no power law lends it resistance that it does not have at low frequencies. So
   * where the fit leaves over more than noise, all the resistance that the fitted coil has amid the
   * resonances may belong to the direct current's, or none of it. The pair tells that better than a
   * fit whose further resonances stand in for the coil.
   */
  private Estimate resistance() {
    Estimate plain = estimate(fit, p -> p[0], RESISTANCE_BIAS, RESISTANCE_PER_MISFIT);
    double lent =
        fit.shape().coilResistanceOhm(fit.parameters(), fit.shape().unitHz())
            * Math.min(1, misfitBeyondNoise(pair.orElse(fit)) / TELLING_MISFIT);
    double arm = plain.value() * plain.relativeWidth() + lent / 2;
    return Estimate.within(plain.value() + lent / 2, arm);
  }

  Outcome<Estimate> mainResonanceHz() {
    if (fit.shape().resonances() == 0) {
      return Outcome.none("the curve holds no resonance");
    }
    int main = fit.shape().resonanceAt(0);
    for (int k = 1; k < fit.shape().resonances(); k++) {
      int at = fit.shape().resonanceAt(k);
      main = fit.parameters()[at] > fit.parameters()[main] ? at : main;
    }
    int b = main + 2;
    return misfit(fit)
        .<Outcome<Estimate>>map(Outcome::none)
        .orElseGet(
            () ->
                Outcome.found(
                    estimate(
                        fit,
                        p -> fit.shape().unitHz() * Math.exp(p[b] / 2),
                        RESONANCE_BIAS,
                        TUNING_PER_MISFIT)));
  }

  Outcome<Estimate> tuningHz() {
    if (pair.isEmpty()) {
      return Outcome.none("the curve is not that of two resonances, so no tuning can be read");
    }
    ResonanceFit two = pair.get();
    if (misfit(two).isPresent()) {
      return Outcome.none(misfit(two).get());
    }
    double[] zeros = two.shape().zerosHz(two.parameters());
    double first = resonances(two).get(0).frequencyHz();
    double last = resonances(two).get(1).frequencyHz();
    if (zeros.length != 1 || zeros[0] < first || zeros[0] > last) {
      return Outcome.none(
          "the two resonances do not cancel between them, as those of a vented box do");
    }
    return Outcome.found(
        estimate(two, p -> zero(two, p, zeros[0]), TUNING_BIAS, TUNING_PER_MISFIT));
  }

  private static double zero(ResonanceFit two, double[] parameters, double otherwise) {
    double[] zeros = two.shape().zerosHz(parameters);
    return zeros.length == 1 ? zeros[0] : otherwise;
  }

  /** A function of the parameters, with its spread by the law of propagation (JCGM 100, 5.2.2). */
  private Estimate estimate(
      ResonanceFit fit,
      ToDoubleFunction<double[]> function,
      double relativeBias,
      double perMisfit) {
    double value = function.applyAsDouble(fit.parameters());
    RealVector gradient = new ArrayRealVector(fit.parameters().length);
    for (int i = 0; i < fit.parameters().length; i++) {
      double step = STEP * Math.max(1e-3, Math.abs(fit.parameters()[i]));
      double[] moved = fit.parameters().clone();
      moved[i] += step;
      gradient.setEntry(i, (function.applyAsDouble(moved) - value) / step);
    }
    double sigma = Math.sqrt(Math.max(0, fit.covariance().operate(gradient).dotProduct(gradient)));
    double bias = value * (relativeBias + perMisfit * misfitBeyondNoise(fit));
    return Estimate.within(value, Math.hypot(COVERAGE_FACTOR * sigma, bias));
  }

  private double misfitBeyondNoise(ResonanceFit fit) {
    double left = fit.relativeResidual();
    return Math.sqrt(Math.max(0, left * left - NOISE_MARGIN * NOISE_MARGIN * noise * noise));
  }

  /** |Z| at the peaks of the fit within a range, which noise and wide spacing hide less. */
  List<Double> peaksOhm(double lowHz, double highHz) {
    double[] y = new double[PEAK_GRID];
    for (int i = 0; i < PEAK_GRID; i++) {
      double f = lowHz * Math.pow(highHz / lowHz, i / (PEAK_GRID - 1.0));
      y[i] = Math.log(fit.shape().impedance(fit.parameters(), f).abs());
    }
    return Extrema.peaksIn(y).stream().map(Math::exp).toList();
  }

  List<Resonance> resonances() {
    return resonances(fit);
  }

  private static List<Resonance> resonances(ResonanceFit fit) {
    double[] p = fit.parameters();
    double total = 0;
    for (int k = 0; k < fit.shape().resonances(); k++) {
      total += p[fit.shape().resonanceAt(k)];
    }
    List<Resonance> list = new ArrayList<>();
    for (int k = 0; k < fit.shape().resonances(); k++) {
      int at = fit.shape().resonanceAt(k);
      double natural = Math.exp(p[at + 2] / 2);
      list.add(
          new Resonance(
              natural * fit.shape().unitHz(), natural / Math.exp(p[at + 1]), p[at] / total));
    }
    list.sort(Comparator.comparingDouble(Resonance::frequencyHz));
    return list;
  }
}
