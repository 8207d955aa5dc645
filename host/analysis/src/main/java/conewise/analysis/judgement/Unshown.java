package conewise.analysis.judgement;

import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import conewise.analysis.plan.PlannedResistance;
import java.util.ArrayList;
import java.util.List;

/** What one sweep at the terminals can never show of a planned box, and what was not asked. */
final class Unshown {
  private Unshown() {}

  static List<String> of(BoxPlan plan) {
    List<String> list = new ArrayList<>();
    list.add(
        "Absolute polarity: all drivers reversed together look the same. "
            + PatternChecks.POP_TEST);
    if (plan.drivers().size() > 1 && plan.separateSpaces()) {
      list.add("Polarity of drivers in separate spaces against each other. The pop test tells.");
    }
    if (plan.drivers().size() > 2 && !plan.separateSpaces()) {
      list.add(
          "Which of the drivers are reversed, where some are: any other choice of as many looks the"
              + " same. The pop test tells.");
    }
    if (equalLoads(plan)) {
      list.add(
          "Wirings of equal load: coils joined in another order that gives the same resistance."
              + " Compare the links with the plan.");
    }
    list.add(
        "A warm coil, a bad joint and a long lead from one another: each only adds resistance."
            + " Wait, wiggle the joints, or measure with four wires.");
    list.add(
        "Where losses come from: driver, leak, vent and stuffing look alike. A second sweep with"
            + " the vent closed separates some of them.");
    if (plan.kind() == Kind.SEALED && plan.drivers().size() > 1 && !plan.separateSpaces()) {
      list.add(
          "A reversed driver in a box that is large for its drivers: it hardly moves the peak. Swap"
              + " the leads of one driver and sweep again.");
    }
    notAsked(plan, list);
    return List.copyOf(list);
  }

  private static boolean equalLoads(BoxPlan plan) {
    double planned = PlannedResistance.ohm(plan);
    return plan.wiring().coils().size() > 3
        || PlannedResistance.slips(plan).stream()
            .anyMatch(slip -> Math.abs(slip.ohm() / planned - 1) < 0.05);
  }

  private static void notAsked(BoxPlan plan, List<String> list) {
    Limits limits = plan.limits();
    if (limits.ratedImpedanceOhm().isEmpty()) {
      list.add("Not asked: the rated impedance; the plan gives none.");
    }
    if (plan.kind() == Kind.VENTED && limits.tuningHz().isEmpty()) {
      list.add("Not asked: the tuning; the plan gives no limits for it.");
    }
    if (plan.kind() == Kind.SEALED && limits.resonanceHz().isEmpty()) {
      list.add("Not asked: the resonance in the box; the plan gives no limits for it.");
    }
    if (limits.peakRatio().isEmpty()
        && (plan.kind() == Kind.SEALED || limits.dipRatio().isEmpty())) {
      list.add("Not asked: leaks; the plan gives no limits for the dip's or the peak's height.");
    }
  }
}
