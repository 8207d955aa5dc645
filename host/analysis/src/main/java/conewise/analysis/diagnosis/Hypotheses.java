package conewise.analysis.diagnosis;

import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** All that may be the case with a planned box, alike ones merged. */
final class Hypotheses {
  private final Candidate planned;
  private final List<Fault> faults;

  Hypotheses(Candidate planned, List<Fault> faults) {
    this.planned = planned;
    this.faults = List.copyOf(faults);
  }

  /** Every single fault that the plan's box may have. */
  static List<Fault> faultsOf(PlannedBox plan, Rates rates) {
    FaultList faults = new FaultList(rates);
    new WiringFaults(plan, faults).addAll();
    new AirFaults(plan, faults).addAll();
    new DriverFaults(plan, faults).addAll();
    new OtherBox(plan, faults).addAll();
    return faults.all();
  }

  /** A good box and every single fault. */
  List<Hypothesis> singles() {
    List<Hypothesis> all = new ArrayList<>();
    all.add(Hypothesis.of(planned, List.of()));
    faults.forEach(fault -> all.add(Hypothesis.of(planned, List.of(fault))));
    return merged(all);
  }

  /** Two faults at once: every fault beside each of some that are likely by themselves. */
  List<Hypothesis> pairs(List<Hypothesis> likely) {
    List<Hypothesis> all = new ArrayList<>();
    List<Fault> done = new ArrayList<>();
    for (Hypothesis one : likely) {
      if (one.mayBeGood() || one.faults().size() != 1) {
        continue;
      }
      Fault first = one.faults().get(0);
      done.add(first);
      for (Fault second : faults) {
        if (!done.contains(second) && first.goesWith(second)) {
          all.add(Hypothesis.of(planned, List.of(first, second)));
        }
      }
    }
    return merged(all);
  }

  /** One hypothesis for all that show the same at the terminals; what shows nothing is left out. */
  static List<Hypothesis> merged(List<Hypothesis> all) {
    Map<Signature, Hypothesis> bySignature = new LinkedHashMap<>();
    all.stream()
        .filter(each -> each.candidate().model().conducts())
        .sorted(Comparator.comparingDouble(each -> -each.logPrior()))
        .forEach(each -> bySignature.merge(Signature.of(each.candidate()), each, Hypothesis::or));
    return List.copyOf(bySignature.values());
  }
}
