package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.plan.PlannedBox;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * A box of another plan on the bench: built soundly, but of other drivers and another volume, with
 * a vent or without. It goes with no other fault, since whatever else were wrong with it would be
 * wrong by a plan that is not here.
 */
final class OtherBox {
  /** Another design's figures lie about so far from this one's, in logarithms: a factor of 1.6. */
  private static final double ELSEWHERE = 0.5;

  private static final String VENT = "vent of another box";
  private static final double VENT_HZ = 35;
  private static final double VENT_Q = 40;

  private final PlannedBox plan;
  private final FaultList faults;

  OtherBox(PlannedBox plan, FaultList faults) {
    this.plan = plan;
    this.faults = faults;
  }

  /** To be called last: it excludes every fault that is in the list. */
  void addAll() {
    Set<String> all = new HashSet<>(Set.of("the box"));
    faults.all().forEach(fault -> all.addAll(fault.touches()));
    boolean opened = !plan.vents().isEmpty() || !plan.radiators().isEmpty();
    add("", all, OtherBox::loosened);
    if (opened) {
      add("closed", all, candidate -> loosened(candidate.with(OtherBox::closed)));
    } else {
      plan.spaces().stream()
          .filter(space -> !plan.drivers().isEmpty())
          .limit(1)
          .forEach(space -> add("vented", all, candidate -> vented(candidate, space.name())));
    }
  }

  private void add(String form, Set<String> touches, UnaryOperator<Candidate> change) {
    faults.add(
        FaultKind.OTHER_BOX,
        form,
        touches,
        "this box is not of the plan " + plan.name(),
        "Compare job, plan and box before anything is changed on the box.",
        change);
  }

  private static BoxModel closed(BoxModel box) {
    BoxModel closed = box;
    for (Opening opening : box.openings()) {
      if (opening instanceof Opening.Vent || opening instanceof Opening.PassiveRadiator) {
        closed = closed.without(opening.name());
      }
    }
    return closed;
  }

  private static Candidate vented(Candidate candidate, String space) {
    return loosened(candidate)
        .with(box -> box.with(new Opening.Vent(VENT, VENT_HZ, VENT_Q, space, Space.OUTSIDE)))
        .expecting(Kind.TUNING, 0, ELSEWHERE, VENT)
        .expecting(Kind.VENT_Q, 0, ELSEWHERE, VENT);
  }

  /** All that a plan states is unknown; how alike the drivers of one batch are stays. */
  private static Candidate loosened(Candidate candidate) {
    List<Unknown> loose =
        candidate.unknowns().stream()
            .map(each -> each.inherent() ? each : each.within(Math.max(each.spread(), ELSEWHERE)))
            .toList();
    return new Candidate(candidate.model(), loose);
  }
}
