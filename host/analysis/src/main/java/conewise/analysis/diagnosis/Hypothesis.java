package conewise.analysis.diagnosis;

import java.util.ArrayList;
import java.util.List;

/**
 * Something that may be the case: one box as it may have been built, and every set of faults that
 * comes to that box at the terminals.
 *
 * @param alternatives sets of faults that no sweep of this kind can tell apart, likeliest first; an
 *     empty set of faults is a good box
 * @param candidate the box
 * @param logPrior natural logarithm of the odds that any of them is there before a measurement,
 *     over a good box
 */
record Hypothesis(List<List<Fault>> alternatives, Candidate candidate, double logPrior) {
  Hypothesis {
    alternatives = alternatives.stream().map(List::copyOf).toList();
  }

  static Hypothesis of(Candidate planned, List<Fault> faults) {
    Candidate candidate = planned;
    double logPrior = 0;
    for (Fault fault : faults) {
      candidate = fault.change().apply(candidate);
      logPrior += fault.logOdds();
    }
    return new Hypothesis(List.of(faults), candidate, logPrior);
  }

  /** The same with what the other may be as well. */
  Hypothesis or(Hypothesis other) {
    List<List<Fault>> all = new ArrayList<>(alternatives);
    all.addAll(other.alternatives);
    double larger = Math.max(logPrior, other.logPrior);
    double sum = larger + Math.log(Math.exp(logPrior - larger) + Math.exp(other.logPrior - larger));
    return new Hypothesis(all, candidate, sum);
  }

  boolean mayBeGood() {
    return alternatives.stream().anyMatch(List::isEmpty);
  }

  /** The likeliest set of faults. */
  List<Fault> faults() {
    return alternatives.get(0);
  }
}
