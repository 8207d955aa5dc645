package conewise.analysis.diagnosis;

import java.util.ArrayList;
import java.util.List;

/**
 * Something that may be the case: one box as it may have been built, and every set of faults that
 * comes to that box at the terminals.
 *
 * @param ways sets of faults that no sweep of this kind can tell apart, likeliest first, each with
 *     its odds over a good box before anything is measured
 * @param candidate the box
 */
record Hypothesis(List<Way> ways, Candidate candidate) {

  /** A set of faults and the natural logarithm of its odds over a good box. */
  record Way(List<Fault> faults, double logOdds) {
    Way {
      faults = List.copyOf(faults);
    }
  }

  Hypothesis {
    ways = List.copyOf(ways);
  }

  static Hypothesis of(Candidate planned, List<Fault> faults) {
    double logOdds = faults.stream().mapToDouble(Fault::logOdds).sum();
    return new Hypothesis(
        List.of(new Way(faults, logOdds)), new Alternative(faults, 1).of(planned));
  }

  /** The same with what the other may be as well. */
  Hypothesis or(Hypothesis other) {
    List<Way> all = new ArrayList<>(ways);
    all.addAll(other.ways);
    return new Hypothesis(all, candidate);
  }

  /** Of all ways together. */
  double logPrior() {
    double largest = ways.get(0).logOdds();
    return largest
        + Math.log(ways.stream().mapToDouble(way -> Math.exp(way.logOdds() - largest)).sum());
  }

  boolean mayBeGood() {
    return ways.stream().anyMatch(way -> way.faults().isEmpty());
  }

  /** The likeliest set of faults. */
  List<Fault> faults() {
    return ways.get(0).faults();
  }
}
