package conewise.analysis.judgement;

import conewise.analysis.diagnosis.Observation;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;

/** What sweeps at the terminals can never show of a planned box, and what was not asked. */
final class NotShown {
  static final String POP_TEST =
      "Pop test, amplifier disconnected: touch a 1.5 V cell to the terminals for less than a"
          + " second; all cones must move the same way (the other way for a driver mounted magnet"
          + " out).";

  private NotShown() {}

  static List<String> of(PlannedBox plan, BoxJudge.Evidence more) {
    List<String> list = new ArrayList<>();
    if (more.observations().stream().noneMatch(Observation.Pop.class::isInstance)) {
      list.add("Absolute polarity: all drivers reversed together look the same. " + POP_TEST);
    }
    if (plan.wiring().coils().size() > 3) {
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
    notAsked(plan, list);
    return List.copyOf(list);
  }

  private static void notAsked(PlannedBox plan, List<String> list) {
    Demands demands = plan.demands();
    if (demands.ratedImpedanceOhm().isEmpty()) {
      list.add("Not asked: the rated impedance; the plan gives none.");
    }
    if (!plan.vents().isEmpty() && demands.tuningHz().isEmpty()) {
      list.add("Not asked: the tuning; the plan gives no limits for it.");
    }
    if (demands.leastLossQ().isEmpty()) {
      list.add("Not asked: small leaks; the plan gives no least loss Q.");
    }
  }
}
