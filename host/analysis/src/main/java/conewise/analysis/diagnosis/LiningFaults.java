package conewise.analysis.diagnosis;

import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Stuffing where none is planned, and none where it is. It takes energy in proportion to frequency,
 * and keeps the air from warming, so that a space seems larger. Who stuffs one space of a box, or
 * forgets to, mostly does so with all of them.
 */
final class LiningFaults {
  /** Stuffing that shows: a loss Q of 5, from 1.5 to 16, where 40 is expected. */
  private static final double STUFFED = -2.1;

  private static final double STUFFED_SPREAD = 0.6;

  /** What is left where a lining with a loss Q of 10 is planned: 50, from 22 up. */
  private static final double BARE = 1.6;

  private static final double BARE_SPREAD = 0.4;

  /** A space seems 1 to 1.25 times as large by its stuffing (common practice). */
  private static final double STUFFED_GAIN = 0.12;

  /** A lined plan's volume may be meant with or without what its lining adds. */
  private static final double BARE_GAIN = -0.05;

  private static final double GAIN_SPREAD = 0.06;

  private final PlannedBox plan;
  private final FaultList faults;

  LiningFaults(PlannedBox plan, FaultList faults) {
    this.plan = plan;
    this.faults = faults;
  }

  void addAll() {
    List<String> bare = names(false);
    List<String> lined = names(true);
    bare.forEach(space -> addStuffed(space, List.of(space)));
    lined.forEach(space -> addBare(space, List.of(space)));
    if (bare.size() > 1) {
      addStuffed("all", bare);
    }
    if (lined.size() > 1) {
      addBare("all", lined);
    }
  }

  private List<String> names(boolean lined) {
    return plan.spaces().stream()
        .filter(space -> space.lined() == lined)
        .map(PlannedSpace::name)
        .toList();
  }

  private void addStuffed(String subject, List<String> spaces) {
    faults.add(
        FaultKind.STUFFING_UNPLANNED,
        subject,
        touches(spaces),
        where(spaces, "has", "have") + " stuffing that is not planned",
        "Open the box; take the stuffing out, or plan it: lined: yes.",
        candidate -> changed(candidate, spaces, STUFFED, STUFFED_SPREAD, STUFFED_GAIN));
  }

  private void addBare(String subject, List<String> spaces) {
    faults.add(
        FaultKind.STUFFING_MISSING,
        subject,
        touches(spaces),
        where(spaces, "lacks", "lack") + " the lining or stuffing of the plan",
        "Open the box; put in the lining or stuffing that the plan has.",
        candidate -> changed(candidate, spaces, BARE, BARE_SPREAD, BARE_GAIN));
  }

  private static Set<String> touches(List<String> spaces) {
    return spaces.stream().map(space -> "air of " + space).collect(Collectors.toSet());
  }

  private String where(List<String> spaces, String one, String many) {
    return plan.spaces().size() == 1
        ? "the box " + one
        : spaces.size() == 1
            ? "space " + spaces.get(0) + " " + one
            : "spaces " + String.join(" and ", spaces) + " " + many;
  }

  private Candidate changed(
      Candidate candidate, List<String> spaces, double loss, double lossSpread, double gain) {
    Candidate changed = candidate;
    for (String space : spaces) {
      changed =
          new Resizing(plan)
              .of(changed, space, gain, GAIN_SPREAD)
              .expecting(Kind.ABSORPTION_Q, loss, lossSpread, space);
    }
    return changed;
  }
}
