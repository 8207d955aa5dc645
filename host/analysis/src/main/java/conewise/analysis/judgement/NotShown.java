package conewise.analysis.judgement;

import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What sweeps at the terminals can never show of a planned box, and what was not asked. */
final class NotShown {
  static final String POP_TEST =
      "Pop test, amplifier disconnected: touch a 1.5 V cell to the terminals for less than a"
          + " second; all cones must move the same way (the other way for a driver mounted magnet"
          + " out).";

  private static final int MOST_NOT_RULED_OUT = 5;

  private NotShown() {}

  /** Of a box that was not judged. */
  static List<String> of(PlannedBox plan) {
    return of(plan, BoxJudge.Evidence.NONE);
  }

  /** Of a box with a diagnosis. */
  static List<String> of(PlannedBox plan, Diagnosis diagnosis, BoxJudge.Evidence more) {
    List<String> list = new ArrayList<>(of(plan, more));
    notRuledOut(diagnosis).ifPresent(each -> list.add(0, each));
    return List.copyOf(list);
  }

  private static List<String> of(PlannedBox plan, BoxJudge.Evidence more) {
    List<String> list = new ArrayList<>();
    if (more.observations().stream().noneMatch(NotShown::showsAbsolutePolarity)) {
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

  private static boolean showsAbsolutePolarity(Observation observation) {
    return observation instanceof Observation.Pop
        || (observation instanceof Observation.HeardPops heard && heard.proven());
  }

  /** What is seldom met, but would look the same within the tolerances. */
  private static Optional<String> notRuledOut(Diagnosis diagnosis) {
    List<String> faults =
        diagnosis.undistinguished().stream()
            .skip(1)
            .filter(each -> each.likeliest().faults().size() == 1)
            .map(NotShown::sentence)
            .limit(MOST_NOT_RULED_OUT)
            .toList();
    return faults.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "Unlikely, but not told apart by this curve within the plan's tolerances: "
                + String.join("; ", faults)
                + ".");
  }

  private static String sentence(Finding finding) {
    String likeliest = finding.likeliest().sentence();
    return finding.alternatives().size() > 1 ? likeliest + ", or another like it" : likeliest;
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
