package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/**
 * Finds how many resonances a curve holds and fits them: one for each peak at first, then one more
 * wherever the most is left over, as long as that pays.
 */
final class ResonanceSearch {
  private static final int MOST_RESONANCES = 4;

  /** Above this the coil departs from a power law and no box has a resonance. */
  private static final double TOP_HZ = 200;

  private static final double TOP_OVER_PEAK = 3;

  /** A further resonance must take this part of the residual away, or it is left out. */
  private static final double WORTH_IT = 0.7;

  /** Nothing is sought below this relative residual: a good converter's own smooth error. */
  private static final double GOOD_RESIDUAL = 0.0015;

  private static final double LEAST_QUALITY = 0.3;

  private final ImpedanceCurve curve;
  private final Extrema extrema;
  private final double topHz;

  private ResonanceSearch(ImpedanceCurve curve, Extrema extrema, double topHz) {
    this.curve = curve;
    this.extrema = extrema;
    this.topHz = topHz;
  }

  static Outcome<FittedCurve> of(ImpedanceCurve curve, Extrema extrema) {
    double top = TOP_HZ;
    for (Extremum peak : extrema.peaks()) {
      top = Math.max(top, TOP_OVER_PEAK * peak.frequencyHz().value());
    }
    return new ResonanceSearch(curve, extrema, Math.min(top, curve.highestHz())).run();
  }

  private Outcome<FittedCurve> run() {
    int peaks = extrema.peaks().size();
    if (peaks > MOST_RESONANCES) {
      return Outcome.none(
          "|Z| has " + peaks + " peaks; at most " + MOST_RESONANCES + " are fitted");
    }
    List<double[]> seeds = new ArrayList<>();
    extrema.peaks().forEach(peak -> seeds.add(seed(peak)));
    Outcome<ResonanceFit> best = fit(seeds);
    Optional<ResonanceFit> pair = pairIn(best);
    while (best instanceof Found<ResonanceFit> found && seeds.size() < MOST_RESONANCES) {
      if (found.value().relativeResidual() <= Math.max(GOOD_RESIDUAL, extrema.jitter())) {
        break;
      }
      seeds.add(leftOver(found.value()));
      Outcome<ResonanceFit> next = fit(seeds);
      if (!(next instanceof Found<ResonanceFit> better)
          || !plausible(better.value())
          || better.value().relativeResidual() > WORTH_IT * found.value().relativeResidual()) {
        break;
      }
      best = next;
      pair = pair.or(() -> pairIn(next));
    }
    Optional<ResonanceFit> ofTwo = pair;
    return best.map(fit -> new FittedCurve(fit, ofTwo, LogCurve.of(curve).noise()));
  }

  /** A resonance beyond the range or one that hardly swings would stand in for the coil. */
  private boolean plausible(ResonanceFit fit) {
    ResonanceSum shape = fit.shape();
    for (int k = 0; k < shape.resonances(); k++) {
      double width = Math.exp(fit.parameters()[shape.resonanceAt(k) + 1]);
      double natural = Math.exp(fit.parameters()[shape.resonanceAt(k) + 2] / 2);
      if (natural * shape.unitHz() > topHz || natural / width < LEAST_QUALITY) {
        return false;
      }
    }
    return true;
  }

  private static Optional<ResonanceFit> pairIn(Outcome<ResonanceFit> outcome) {
    return outcome instanceof Found<ResonanceFit> found && found.value().shape().resonances() == 2
        ? Optional.of(found.value())
        : Optional.empty();
  }

  /** Frequency in hertz, quality and height in ohm to start from. */
  private double[] seed(Extremum peak) {
    double f = peak.frequencyHz().value();
    double edge = peak.modulusOhm().value() / Math.sqrt(2);
    double below = f / 1.5;
    double above = f * 1.5;
    for (ImpedancePoint point : curve.points()) {
      if (point.frequencyHz() < f && point.modulusOhm() < edge) {
        below = point.frequencyHz();
      }
      if (point.frequencyHz() > f && point.modulusOhm() < edge) {
        above = point.frequencyHz();
        break;
      }
    }
    double quality = Math.min(20, Math.max(1, f / (above - below)));
    return new double[] {f, quality, Math.max(0.1, peak.modulusOhm().value() - lowest())};
  }

  private double lowest() {
    return curve.points().stream().mapToDouble(ImpedancePoint::modulusOhm).min().orElseThrow();
  }

  private double[] leftOver(ResonanceFit fit) {
    double most = 0;
    double[] seed = {30, 5, 0.1};
    for (ImpedancePoint point : curve.points()) {
      if (point.frequencyHz() > 0 && point.frequencyHz() < topHz / 2) {
        Complex z = new Complex(point.resistanceOhm(), point.reactanceOhm());
        Complex left = z.subtract(fit.shape().impedance(fit.parameters(), point.frequencyHz()));
        double size = left.abs() / z.abs();
        if (size > most) {
          most = size;
          seed = new double[] {point.frequencyHz(), 5, left.getReal()};
        }
      }
    }
    return seed;
  }

  private Outcome<ResonanceFit> fit(List<double[]> seeds) {
    double unit =
        seeds.isEmpty()
            ? topHz / 10
            : Math.exp(seeds.stream().mapToDouble(s -> Math.log(s[0])).average().orElseThrow());
    ResonanceSum shape = new ResonanceSum(seeds.size(), unit, topHz);
    double[] start = new double[shape.size()];
    double resistance = Math.max(1e-3, lowest() * 0.97);
    start[0] = resistance;
    start[1] = Math.log(Math.max(0.02, topReactance() / resistance));
    start[2] = 0.4;
    for (int k = 0; k < seeds.size(); k++) {
      double[] seed = seeds.get(k);
      double w = seed[0] / unit;
      start[shape.resonanceAt(k)] = seed[2] * w / seed[1];
      start[shape.resonanceAt(k) + 1] = Math.log(w / seed[1]);
      start[shape.resonanceAt(k) + 2] = 2 * Math.log(w);
    }
    return ResonanceFit.fit(curve, shape, start);
  }

  private double topReactance() {
    return curve.points().stream()
        .filter(p -> p.frequencyHz() <= topHz)
        .reduce((first, second) -> second)
        .orElseThrow()
        .reactanceOhm();
  }
}
