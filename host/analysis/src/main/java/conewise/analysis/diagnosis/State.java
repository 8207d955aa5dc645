package conewise.analysis.diagnosis;

import conewise.analysis.model.Circuit;

/**
 * A state in which a box is swept: as it came to the bench, or with one thing changed on purpose.
 */
public sealed interface State {

  /** What was done, for people: "with the vent closed". */
  String words();

  /** The candidate then. */
  Candidate of(Candidate asBuilt);

  /** As it came. */
  record AsBuilt() implements State {
    @Override
    public String words() {
      return "as it came";
    }

    @Override
    public Candidate of(Candidate asBuilt) {
      return asBuilt;
    }
  }

  /**
   * One driver's leads swapped.
   *
   * @param driver its name in the plan
   */
  record LeadsSwapped(String driver) implements State {
    @Override
    public String words() {
      return "with the leads of driver " + driver + " swapped";
    }

    @Override
    public Candidate of(Candidate asBuilt) {
      return asBuilt.wired(circuit -> circuit.withReversed(driver));
    }
  }

  /**
   * One driver's leads off, open.
   *
   * @param driver its name in the plan
   */
  record Unplugged(String driver) implements State {
    @Override
    public String words() {
      return "with driver " + driver + " unplugged, its leads open";
    }

    @Override
    public Candidate of(Candidate asBuilt) {
      return asBuilt.wired(
          circuit -> circuit.withCoils(c -> c.driver().equals(driver) ? new Circuit.Gap() : c));
    }
  }

  /**
   * A vent closed by hand.
   *
   * @param vent its name in the plan
   */
  record VentClosed(String vent) implements State {
    @Override
    public String words() {
      return "with vent " + vent + " closed";
    }

    @Override
    public Candidate of(Candidate asBuilt) {
      boolean there =
          asBuilt.model().openings().stream().anyMatch(each -> each.name().equals(vent));
      return there ? asBuilt.with(box -> box.without(vent)) : asBuilt;
    }
  }
}
