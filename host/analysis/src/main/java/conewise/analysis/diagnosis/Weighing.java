package conewise.analysis.diagnosis;

import conewise.analysis.fit.Discrepancy;
import conewise.analysis.fit.Plausibility;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.Unknown;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Weighs hypotheses in stages, so that the cost goes with their number: all on few points of the
 * curve, pairs of faults beside the best of them, and what is left on the whole curve.
 */
final class Weighing {
  private static final int FEW_POINTS = 40;
  private static final int ROUGH_STEPS = 25;
  private static final int FINE_STEPS = 60;

  /** What is worse than the best by so much, in the logarithm of odds, is out. */
  private static final double OUT_ROUGHLY = 25;

  private static final int LIKELY_SINGLES = 6;
  private static final int MOST_LEFT = 14;

  private final Hypotheses hypotheses;
  private final List<State> states;
  private final List<ImpedanceCurve> whole;
  private final List<ImpedanceCurve> thin;

  Weighing(Hypotheses hypotheses, List<SweptState> sweeps) {
    this.hypotheses = hypotheses;
    states = sweeps.stream().map(SweptState::state).toList();
    whole = sweeps.stream().map(SweptState::curve).toList();
    thin = whole.stream().map(Weighing::thinned).toList();
  }

  /** Those that are left, best first; none where nothing fits at all. */
  List<Weighed> run() {
    List<Weighed> all = weighed(hypotheses.singles(), thin, Discrepancy.USUAL, List.of());
    all = again(all);
    List<Hypothesis> likely = all.stream().limit(LIKELY_SINGLES).map(Weighed::hypothesis).toList();
    List<Weighed> more = new ArrayList<>(all);
    more.addAll(weighed(hypotheses.pairs(likely), thin, Discrepancy.USUAL, startsOf(all)));
    List<Weighed> left = best(more);
    if (left.isEmpty()) {
      return left;
    }
    List<Weighed> fine = onWhole(left, Discrepancy.USUAL);
    if (fine.isEmpty()) {
      return fine;
    }
    Discrepancy spoken = fine.get(0).plausibility().discrepancy(Discrepancy.USUAL);
    return spoken.equals(Discrepancy.USUAL) ? fine : onWhole(fine, spoken);
  }

  /** Once more from where the best ones ended: drivers that wandered wander in all hypotheses. */
  private List<Weighed> again(List<Weighed> all) {
    if (all.isEmpty()) {
      return all;
    }
    List<Map<String, Double>> starts = startsOf(all);
    List<Weighed> better = new ArrayList<>();
    for (Weighed each : all) {
      Weighed other = weigh(each.hypothesis(), thin, Discrepancy.USUAL, starts).orElse(each);
      better.add(other.logOdds() > each.logOdds() ? other : each);
    }
    return sorted(better);
  }

  private static List<Map<String, Double>> startsOf(List<Weighed> all) {
    return all.stream().limit(1).map(each -> each.plausibility().coordinates()).toList();
  }

  private List<Weighed> best(List<Weighed> all) {
    List<Weighed> sorted = sorted(all);
    Set<Signature> seen = new HashSet<>();
    return sorted.stream()
        .filter(each -> each.logOdds() > sorted.get(0).logOdds() - OUT_ROUGHLY)
        .filter(each -> seen.add(Signature.of(each.hypothesis().candidate())))
        .limit(MOST_LEFT)
        .toList();
  }

  private List<Weighed> onWhole(List<Weighed> left, Discrepancy discrepancy) {
    List<Weighed> fine = new ArrayList<>();
    for (Weighed each : left) {
      Map<String, Double> start = each.plausibility().coordinates();
      plausibility(each.hypothesis(), whole, discrepancy, List.of(start), FINE_STEPS)
          .ifPresent(found -> fine.add(new Weighed(each.hypothesis(), found)));
    }
    return sorted(fine);
  }

  private List<Weighed> weighed(
      List<Hypothesis> which,
      List<ImpedanceCurve> curves,
      Discrepancy discrepancy,
      List<Map<String, Double>> starts) {
    List<Weighed> all = new ArrayList<>();
    List<Map<String, Double>> usual = starts.isEmpty() ? List.of(Map.of()) : starts;
    for (Hypothesis each : which) {
      weigh(each, curves, discrepancy, usual).ifPresent(all::add);
    }
    return sorted(all);
  }

  private java.util.Optional<Weighed> weigh(
      Hypothesis hypothesis,
      List<ImpedanceCurve> curves,
      Discrepancy discrepancy,
      List<Map<String, Double>> starts) {
    return plausibility(hypothesis, curves, discrepancy, starts, ROUGH_STEPS)
        .map(found -> new Weighed(hypothesis, found));
  }

  private java.util.Optional<Plausibility> plausibility(
      Hypothesis hypothesis,
      List<ImpedanceCurve> curves,
      Discrepancy discrepancy,
      List<Map<String, Double>> starts,
      int steps) {
    List<Sweep> sweeps = new ArrayList<>();
    for (int s = 0; s < curves.size(); s++) {
      sweeps.add(new Sweep(states.get(s).of(hypothesis.candidate()).model(), curves.get(s)));
    }
    List<Unknown> unknowns = hypothesis.candidate().unknowns();
    Outcome<Plausibility> outcome = Plausibility.of(sweeps, unknowns, discrepancy, starts, steps);
    return outcome instanceof Found<Plausibility> found
        ? java.util.Optional.of(found.value())
        : java.util.Optional.empty();
  }

  private static List<Weighed> sorted(List<Weighed> all) {
    return all.stream().sorted(Comparator.comparingDouble(each -> -each.logOdds())).toList();
  }

  /** Every so manieth point, the one at 0 Hz kept. */
  private static ImpedanceCurve thinned(ImpedanceCurve curve) {
    List<ImpedancePoint> points = curve.points();
    if (points.size() <= FEW_POINTS) {
      return curve;
    }
    boolean dc = points.get(0).frequencyHz() == 0;
    int from = dc ? 1 : 0;
    List<ImpedancePoint> kept = new ArrayList<>();
    if (dc) {
      kept.add(points.get(0));
    }
    double step = (points.size() - from - 1) / (FEW_POINTS - 1.0);
    for (int i = 0; i < FEW_POINTS; i++) {
      kept.add(points.get(from + (int) Math.round(i * step)));
    }
    return new ImpedanceCurve(kept, curve.scaleUncertainty());
  }
}
