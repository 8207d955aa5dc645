package conewise.analysis.diagnosis;

import conewise.analysis.fit.BoxFit;
import java.util.List;
import java.util.Map;

/**
 * Something that may be the case with a box, and how probable that is.
 *
 * @param alternatives sets of faults that the sweeps cannot tell from one another, likeliest first
 * @param priorOdds of the whole set over a good box, before anything was measured
 * @param candidate the box that they come to
 * @param fit the best fit of that box to the sweeps
 * @param coordinates of that fit, by the unknowns' names
 */
public record Finding(
    List<Alternative> alternatives,
    double priorOdds,
    Candidate candidate,
    BoxFit fit,
    Map<String, Double> coordinates) {
  public Finding {
    alternatives = List.copyOf(alternatives);
    coordinates = Map.copyOf(coordinates);
    if (alternatives.isEmpty()) {
      throw new IllegalArgumentException("a finding has at least 1 alternative; it had 0");
    }
  }

  /** Of the whole set, 0 to 1. */
  public double probability() {
    return alternatives.stream().mapToDouble(Alternative::probability).sum();
  }

  /** How much what was measured and seen speaks for it: ratios of it are Bayes factors. */
  double support() {
    return probability() / priorOdds;
  }

  /** True where a box built as planned is among what cannot be told apart. */
  public boolean mayBeGood() {
    return alternatives.stream().anyMatch(Alternative::isGood);
  }

  /** The likeliest set of faults. */
  public Alternative likeliest() {
    return alternatives.get(0);
  }
}
