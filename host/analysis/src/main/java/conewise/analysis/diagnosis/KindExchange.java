package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Puts drivers of another kind into a box. */
record KindExchange(PlannedBox plan, DriverKind other) {
  private static final Set<Kind> FORM =
      EnumSet.of(Kind.INDUCTANCE, Kind.LOSSY_INDUCTANCE, Kind.LOSSY_EXPONENT, Kind.CREEP);

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

  /**
   * Those of the exchanged plan, but for what another fault has changed in the candidate, and for
   * what the form of coils and suspensions is: that stays common to all drivers, or two kinds would
   * explain any coil that is not of the model's form better than one.
   */
  private List<Unknown> unknowns(Candidate candidate, PlannedBox exchanged) {
    List<Unknown> planned = plan.unknowns();
    List<Unknown> kept =
        candidate.unknowns().stream()
            .filter(each -> !planned.contains(each) || isForm(each))
            .toList();
    List<Unknown> unknowns = new ArrayList<>(kept);
    for (Unknown each : exchanged.unknowns()) {
      if (!isForm(each) && kept.stream().noneMatch(other -> other.moves().equals(each.moves()))) {
        unknowns.add(each);
      }
    }
    return unknowns;
  }

  private static boolean isForm(Unknown unknown) {
    return FORM.contains(unknown.moves().get(0).kind());
  }
}
