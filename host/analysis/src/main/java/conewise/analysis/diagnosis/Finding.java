package conewise.analysis.diagnosis;

import conewise.analysis.fit.BoxFit;
import java.util.List;

/**
 * Something that may be the case with a box, and how probable that is.
 *
 * @param alternatives sets of faults that the sweeps cannot tell from one another, likeliest first;
 *     an empty set of faults is a box built as planned
 * @param probability of the whole set, 0 to 1
 * @param candidate the box that it comes to
 * @param fit the best fit of that box to the sweeps
 */
public record Finding(
    List<List<Fault>> alternatives, double probability, Candidate candidate, BoxFit fit) {
  public Finding {
    alternatives = alternatives.stream().map(List::copyOf).toList();
  }

  /** True where a box built as planned is among what cannot be told apart. */
  public boolean mayBeGood() {
    return alternatives.stream().anyMatch(List::isEmpty);
  }

  /** True where nothing but a box built as planned shows this. */
  public boolean isGood() {
    return alternatives.size() == 1 && mayBeGood();
  }

  /** The likeliest set of faults. */
  public List<Fault> faults() {
    return alternatives.get(0);
  }
}
