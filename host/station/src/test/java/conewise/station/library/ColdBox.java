package conewise.station.library;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** A fault of one's own: a box that comes out of a cold van. */
final class ColdBox {
  private ColdBox() {}

  // begin: a fault of your own
  /** In the cold all suspensions are stiffer, here by half, give or take a sixth. */
  static Fault of(PlannedBox plan) {
    String[] drivers =
        plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toArray(String[]::new);
    Set<String> touches =
        plan.drivers().stream()
            .map(driver -> "motion of " + driver.name())
            .collect(Collectors.toSet());
    return Fault.own(
        "cold",
        touches,
        "the box is cold, and its suspensions stiff",
        "Leave the box in the warm for some hours and check it again.",
        0.01,
        candidate -> stiffened(candidate, Math.log(1.5), Math.log(1.17), drivers));
  }

  /** Resonance and electrical Q go with the root of the stiffness, Vas against it. */
  private static Candidate stiffened(
      Candidate candidate, double logStiffness, double spread, String... drivers) {
    return candidate
        .expecting(Kind.RESONANCE, logStiffness / 2, spread / 2, drivers)
        .expecting(Kind.ELECTRICAL_Q, logStiffness / 2, spread / 2, drivers)
        .expecting(Kind.EQUIVALENT_VOLUME, -logStiffness, spread, drivers);
  }

  static BoxJudge judge() {
    return new BoxJudge(
        plan -> {
          List<Fault> faults = new ArrayList<>(Diagnosis.usualFaults(plan, Rates.USUAL));
          faults.add(of(plan));
          return faults;
        });
  }
  // end
}
