package conewise.analysis.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;

/** Faults as they are found possible, each with the rate of its kind. */
final class FaultList {
  private final Rates rates;
  private final List<Fault> faults = new ArrayList<>();

  FaultList(Rates rates) {
    this.rates = rates;
  }

  /**
   * Adds one.
   *
   * @param subject the part that has it; blank where it is the whole box
   */
  void add(
      FaultKind kind,
      String subject,
      Set<String> touches,
      String sentence,
      String remedy,
      UnaryOperator<Candidate> change) {
    String id = subject.isEmpty() ? kind.id() : kind.id() + ":" + subject;
    faults.add(new Fault(kind, id, touches, sentence, remedy, rates.of(kind), change));
  }

  List<Fault> all() {
    return List.copyOf(faults);
  }
}
