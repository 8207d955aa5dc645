package conewise.analysis.diagnosis;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Faults that a box has together.
 *
 * @param faults none for a box built as planned
 * @param probability how likely just these are, 0 to 1
 */
public record Alternative(List<Fault> faults, double probability) {
  public Alternative {
    faults = List.copyOf(faults);
  }

  /** True for a box built as planned. */
  public boolean isGood() {
    return faults.isEmpty();
  }

  /** What is wrong, without a full stop; of a good box that nothing is. */
  public String sentence() {
    return isGood()
        ? "nothing is wrong"
        : faults.stream().map(Fault::sentence).collect(Collectors.joining(", and "));
  }

  /** What the faults make of a candidate. */
  Candidate of(Candidate planned) {
    Candidate candidate = planned;
    for (Fault fault : faults) {
      candidate = fault.change().apply(candidate);
    }
    return candidate;
  }
}
