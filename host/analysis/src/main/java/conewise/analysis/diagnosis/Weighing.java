package conewise.analysis.diagnosis;

import conewise.analysis.fit.Discrepancy;
import conewise.analysis.fit.Plausibility;
import conewise.analysis.fit.SharedErrors;
import conewise.analysis.fit.Sweep;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Weighs hypotheses in stages, so that the cost goes with their number: all on few points of the
 * curve, pairs of faults beside the best of them, and what is left on the whole curve.
 */
final class Weighing {
  private static final int FEW_POINTS = 40;
  private static final int LOOSE_STEPS = 15;
  private static final int ROUGH_STEPS = 40;

  /** Pairs begin where one of the two is known. */
  private static final int PAIR_STEPS = 8;

  private static final int FINE_STEPS = 150;

  /** What is worse than the best by so much, in the logarithm of odds, is out. */
  private static final double OUT_ROUGHLY = 25;

  /** What a model is taken to be off, relative to |Z|, while nothing is known of the box. */
  private static final double LOOSE = 0.1;

  /** What is so much worse than the best while a model is taken to be 1 % off is not looked at. */
  private static final double HOPELESS = 200;

  private static final List<Map<String, Double>> NO_STARTS = List.of(Map.of());
  private static final int LIKELY_SINGLES = 5;
  private static final int MOST_LEFT = 12;

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
    List<Weighed> rough = rough(hypotheses.singles());
    if (rough.isEmpty()) {
      return rough;
    }
    // Drivers that wandered wander in all hypotheses: each begins also where the best one ended.
    Map<String, Double> best = rough.get(0).plausibility().coordinates();
    SharedErrors errors = errors(rough.get(0), thin, Discrepancy.OF_BUILT_BOXES);
    List<Weighed> singles = new ArrayList<>();
    for (Weighed each : promising(rough)) {
      List<Map<String, Double>> starts = new ArrayList<>(LikeDrivers.starts(each));
      starts.add(best);
      singles.addAll(weighed(List.of(each.hypothesis()), thin, errors, starts, ROUGH_STEPS));
    }
    List<Weighed> all = sorted(singles);
    List<Hypothesis> likely = all.stream().limit(LIKELY_SINGLES).map(Weighed::hypothesis).toList();
    List<Weighed> more = new ArrayList<>(all);
    more.addAll(weighed(hypotheses.pairs(likely), thin, errors, List.of(best), PAIR_STEPS));
    return onWhole(best(more));
  }

  /**
   * The single hypotheses about, each begun anew. What is far from its plan would get lost on the
   * way if every percent counted from the start, so at first only large differences do.
   */
  private List<Weighed> rough(List<Hypothesis> singles) {
    List<Weighed> loose =
        weighed(
            singles,
            thin,
            SharedErrors.plain(sweeps(singles.get(0), thin), LOOSE),
            NO_STARTS,
            LOOSE_STEPS);
    SharedErrors plain = SharedErrors.plain(sweeps(singles.get(0), thin));
    List<Weighed> rough = new ArrayList<>();
    for (Weighed each : loose) {
      rough.addAll(
          weighed(
              List.of(each.hypothesis()),
              thin,
              plain,
              List.of(each.plausibility().coordinates()),
              ROUGH_STEPS));
    }
    return sorted(rough);
  }

  private static List<Weighed> promising(List<Weighed> rough) {
    double least = rough.get(0).logOdds() - HOPELESS;
    List<Weighed> promising = new ArrayList<>();
    for (Weighed each : rough) {
      if (promising.size() < LIKELY_SINGLES || each.logOdds() > least) {
        promising.add(each);
      }
    }
    return promising;
  }

  private List<Weighed> onWhole(List<Weighed> left) {
    if (left.isEmpty()) {
      return left;
    }
    List<Weighed> fine = onWhole(left, errors(left.get(0), whole, Discrepancy.OF_BUILT_BOXES));
    if (fine.isEmpty()) {
      return fine;
    }
    Discrepancy spoken = fine.get(0).plausibility().discrepancy(Discrepancy.OF_BUILT_BOXES);
    return onWhole(fine, errors(fine.get(0), whole, spoken));
  }

  private SharedErrors errors(Weighed about, List<ImpedanceCurve> curves, Discrepancy discrepancy) {
    return SharedErrors.about(
        sweeps(about.hypothesis(), curves),
        about.hypothesis().candidate().unknowns(),
        about.plausibility().coordinates(),
        discrepancy);
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

  private List<Weighed> onWhole(List<Weighed> left, SharedErrors errors) {
    List<Weighed> fine = new ArrayList<>();
    for (Weighed each : left) {
      Map<String, Double> start = each.plausibility().coordinates();
      plausibility(each.hypothesis(), whole, errors, List.of(start), FINE_STEPS)
          .ifPresent(found -> fine.add(new Weighed(each.hypothesis(), found)));
    }
    return sorted(fine);
  }

  private List<Weighed> weighed(
      List<Hypothesis> which,
      List<ImpedanceCurve> curves,
      SharedErrors errors,
      List<Map<String, Double>> starts,
      int steps) {
    List<Weighed> all = new ArrayList<>();
    for (Hypothesis each : which) {
      plausibility(each, curves, errors, starts, steps)
          .ifPresent(found -> all.add(new Weighed(each, found)));
    }
    return sorted(all);
  }

  private List<Sweep> sweeps(Hypothesis hypothesis, List<ImpedanceCurve> curves) {
    List<Sweep> sweeps = new ArrayList<>();
    for (int s = 0; s < curves.size(); s++) {
      sweeps.add(new Sweep(states.get(s).of(hypothesis.candidate()).model(), curves.get(s)));
    }
    return sweeps;
  }

  private Optional<Plausibility> plausibility(
      Hypothesis hypothesis,
      List<ImpedanceCurve> curves,
      SharedErrors errors,
      List<Map<String, Double>> starts,
      int steps) {
    List<Sweep> sweeps = sweeps(hypothesis, curves);
    if (!sweeps.stream().allMatch(sweep -> sweep.model().conducts())) {
      return Optional.empty();
    }
    Outcome<Plausibility> outcome =
        Plausibility.of(sweeps, hypothesis.candidate().unknowns(), errors, starts, steps);
    return outcome instanceof Found<Plausibility> found
        ? Optional.of(found.value())
        : Optional.empty();
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
