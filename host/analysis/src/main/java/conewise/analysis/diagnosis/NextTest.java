package conewise.analysis.diagnosis;

import java.util.List;

/**
 * A test that would tell more of a box, and what each of its results would mean.
 *
 * @param instruction what to do, a whole sentence
 * @param minutes what it costs a person, about
 * @param bits what it is expected to tell (the entropy of its result)
 * @param results what may come out, most probable first
 */
public record NextTest(String instruction, double minutes, double bits, List<Result> results) {

  /**
   * A result.
   *
   * @param seen what would be seen, without a full stop
   * @param meaning what that would say of the box, without a full stop
   * @param probability of it, 0 to 1
   */
  public record Result(String seen, String meaning, double probability) {}

  public NextTest {
    results = List.copyOf(results);
  }

  /** What it tells for its cost. */
  double worth() {
    return bits / minutes;
  }
}
