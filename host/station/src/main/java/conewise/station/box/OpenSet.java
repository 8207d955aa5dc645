package conewise.station.box;

import conewise.analysis.parameter.SecondSweeps;
import java.util.List;
import java.util.function.Predicate;

/**
 * Unknowns that may move together without the sweeps showing it.
 *
 * @param unknowns their names
 * @param settledBy what to do before a second sweep that would tell them apart, the best first
 * @param narrowedBy what to do before one that would at least halve how far they may move
 */
public record OpenSet(List<String> unknowns, List<String> settledBy, List<String> narrowedBy) {
  private static final int MOST_WAYS = 2;

  public OpenSet {
    unknowns = List.copyOf(unknowns);
    settledBy = List.copyOf(settledBy);
    narrowedBy = List.copyOf(narrowedBy);
  }

  static List<OpenSet> of(List<List<String>> sets, List<SecondSweeps.Advice> advice) {
    return sets.stream()
        .map(
            set ->
                new OpenSet(
                    set,
                    ways(advice, each -> each.settles().contains(set)),
                    ways(advice, each -> each.narrows().contains(set))))
        .toList();
  }

  private static List<String> ways(
      List<SecondSweeps.Advice> advice, Predicate<SecondSweeps.Advice> which) {
    return advice.stream().filter(which).map(SecondSweeps.Advice::doThis).toList();
  }

  /** The whole in one sentence. */
  public String sentence() {
    boolean one = unknowns.size() == 1;
    return (one ? "Hardly shows in the curve: " : "May change together unseen: ")
        + String.join(", ", unknowns)
        + (one ? ". To tell it: " : ". To tell them apart: ")
        + settling();
  }

  /** What would settle it, or else narrow it, for people; of many ways the best two. */
  String settling() {
    if (!settledBy.isEmpty()) {
      return best(settledBy) + "; then sweep again and fit both together.";
    }
    return narrowedBy.isEmpty()
        ? "no second sweep at the terminals does."
        : best(narrowedBy) + "; sweep again and fit both together, which narrows it.";
  }

  private static String best(List<String> ways) {
    return String.join(", or ", ways.subList(0, Math.min(MOST_WAYS, ways.size())));
  }
}
