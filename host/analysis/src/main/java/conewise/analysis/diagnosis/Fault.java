package conewise.analysis.diagnosis;

import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * One way in which a box can be wrong.
 *
 * @param kind what kind it is
 * @param id a stable name, unlike that of any other fault of the box, e.g. {@code
 *     driver-reversed:left}
 * @param touches what it takes hold of; two faults that touch the same cannot be had together
 * @param sentence what is wrong, without a full stop: "driver left is wired backwards"
 * @param remedy what to do, a whole sentence
 * @param rate how often it is met, above 0, below 1
 * @param change what it makes of a box
 */
public record Fault(
    FaultKind kind,
    String id,
    Set<String> touches,
    String sentence,
    String remedy,
    double rate,
    UnaryOperator<Candidate> change) {

  public Fault {
    touches = Set.copyOf(touches);
    if (!(rate > 0 && rate < 1)) {
      throw new IllegalArgumentException(
          "the rate of " + id + " is " + rate + "; it must lie between 0 and 1");
    }
  }

  /**
   * A fault that nobody but its author looks for, to be weighed beside the usual ones.
   *
   * @param name what it is called by programs, unlike that of any other of its author's
   * @param touches what it takes hold of, in words of one's own or as the usual faults have it,
   *     such as {@code air of main} or {@code motion of left}
   * @param sentence what is wrong, without a full stop
   * @param remedy what to do, a whole sentence
   * @param rate how often a box has it, above 0, below 1
   * @param change what it makes of a box; see {@link Candidate#expecting} and {@link
   *     Candidate#with}
   */
  public static Fault own(
      String name,
      Set<String> touches,
      String sentence,
      String remedy,
      double rate,
      UnaryOperator<Candidate> change) {
    String id = FaultKind.OWN.id() + ":" + name;
    return new Fault(FaultKind.OWN, id, touches, sentence, remedy, rate, change);
  }

  boolean goesWith(Fault other) {
    return java.util.Collections.disjoint(touches, other.touches);
  }

  /** How much likelier the fault is than its absence, as a logarithm. */
  double logOdds() {
    return Math.log(rate / (1 - rate));
  }
}
