package conewise.station.box;

import conewise.analysis.parameter.SecondSweeps;
import java.util.ArrayList;
import java.util.List;

/**
 * Unknowns that may move together without the sweeps showing it.
 *
 * @param unknowns their names
 * @param settledBy what to do before a second sweep that would tell them apart, the best first
 */
public record OpenSet(List<String> unknowns, List<String> settledBy) {
  private static final int MOST_WAYS = 2;

  public OpenSet {
    unknowns = List.copyOf(unknowns);
    settledBy = List.copyOf(settledBy);
  }

  static List<OpenSet> of(List<List<String>> sets, List<SecondSweeps.Advice> advice) {
    List<OpenSet> list = new ArrayList<>();
    for (List<String> set : sets) {
      list.add(
          new OpenSet(
              set,
              advice.stream()
                  .filter(each -> each.settles().contains(set))
                  .map(SecondSweeps.Advice::doThis)
                  .toList()));
    }
    return list;
  }

  /** The whole in one sentence. */
  public String sentence() {
    boolean one = unknowns.size() == 1;
    return (one ? "Hardly shows in the curve: " : "May change together unseen: ")
        + String.join(", ", unknowns)
        + (one ? ". To tell it: " : ". To tell them apart: ")
        + settling();
  }

  /** What would settle it, for people; of many ways the best two. */
  String settling() {
    return settledBy.isEmpty()
        ? "no second sweep at the terminals does."
        : String.join(", or ", settledBy.subList(0, Math.min(MOST_WAYS, settledBy.size())))
            + "; then sweep again and fit both together.";
  }
}
