package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;

/** Puts drivers of another kind into a box. */
record KindExchange(PlannedBox plan, DriverKind other) {

  /** The candidate with drivers of the other kind, and that kind's own spreads, at some places. */
  Candidate in(Candidate candidate, List<String> names) {
    PlannedBox exchanged = plan.withKind(names, other.name());
    BoxModel model = candidate.model();
    BoxModel made = exchanged.model();
    for (String name : names) {
      Driver driver = made.driver(name);
      model = model.withDriver(name, before -> driver);
    }
    return new Candidate(model, unknowns(candidate, exchanged));
  }

  /** Those of the exchanged plan, but for what another fault has changed in the candidate. */
  private List<Unknown> unknowns(Candidate candidate, PlannedBox exchanged) {
    List<Unknown> planned = plan.unknowns();
    List<Unknown> changed =
        candidate.unknowns().stream().filter(each -> !planned.contains(each)).toList();
    List<Unknown> unknowns = new ArrayList<>(changed);
    for (Unknown each : exchanged.unknowns()) {
      if (changed.stream().noneMatch(other -> other.moves().equals(each.moves()))) {
        unknowns.add(each);
      }
    }
    return unknowns;
  }
}
