package conewise.analysis.judgement;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import java.util.List;
import java.util.Optional;

/**
 * What is said of a box.
 *
 * @param decision the whole: NOT_JUDGED when the bench is at fault, else FAIL if any check fails,
 *     else UNDECIDED if any check is undecided or not judged, else PASS
 * @param headline one plain sentence a person acts on
 * @param action the one thing to do next; empty after a pass
 * @param checks each question and its answer, in the order asked
 * @param suspects what most likely is wrong, best first; what the terminals cannot tell apart
 *     stands in one entry
 * @param notShown what this measurement can never show for this box, each with the test that would
 * @param bench what the bench has to say
 * @param tests what would tell more, best first; none after a pass
 */
public record Verdict(
    Decision decision,
    String headline,
    Optional<String> action,
    List<Check> checks,
    List<Suspect> suspects,
    List<String> notShown,
    List<BenchFinding> bench,
    List<NextTest> tests) {

  /**
   * Something that may be wrong.
   *
   * @param faults the faults that would look like this and cannot be told apart here, in words
   * @param because what in the curve speaks for it
   * @param test the cheapest test that would settle it
   * @param probability of all of them together, 0 to 1
   */
  public record Suspect(List<String> faults, String because, String test, double probability) {
    public Suspect {
      faults = List.copyOf(faults);
    }
  }

  public Verdict {
    checks = List.copyOf(checks);
    suspects = List.copyOf(suspects);
    notShown = List.copyOf(notShown);
    bench = List.copyOf(bench);
    tests = List.copyOf(tests);
    if (decision == Decision.PASS) {
      for (Check check : checks) {
        if (check.decision() != Decision.PASS) {
          throw new IllegalArgumentException(
              "a box passes only when every check does; " + check.id() + " is " + check.decision());
        }
      }
      if (checks.isEmpty()) {
        throw new IllegalArgumentException("a box passes only on at least one check; there were 0");
      }
    }
  }
}
