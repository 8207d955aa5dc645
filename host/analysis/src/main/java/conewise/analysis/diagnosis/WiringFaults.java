package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.PlannedBox;
import java.util.HashSet;
import java.util.Set;
import java.util.function.UnaryOperator;

/** What can be wrong between the terminals and the coils. */
final class WiringFaults {
  private static final double ADDED_OHM = 0.7;
  private static final double SOURCE_OHM = 0.1;
  private static final double ANY_SIZE = 0.8;

  private final PlannedBox plan;
  private final FaultList faults;

  WiringFaults(PlannedBox plan, FaultList faults) {
    this.plan = plan;
    this.faults = faults;
  }

  void addAll() {
    for (PlannedBox.PlacedDriver driver : plan.drivers()) {
      ofDriver(driver.name());
    }
    Circuit planned = plan.wiring();
    if (plan.drivers().size() > 1) {
      add(
          FaultKind.BOX_REVERSED,
          "all",
          allCoils(),
          "the whole box is wired backwards",
          "Swap the leads at the terminals and check again.",
          circuit -> circuit.withCoils(c -> new Coil(c.driver(), c.number(), !c.reversed())));
    }
    for (Rewiring.Slip slip : Rewiring.slipsOf(planned)) {
      add(
          FaultKind.WIRED_OTHERWISE,
          slip.id(),
          allCoils(),
          slip.sentence(),
          "Compare every link with the plan's wiring, put it right and check again.",
          circuit -> replaced(circuit, planned, slip.circuit()));
    }
    addedResistance();
    sourceConnected();
  }

  private void ofDriver(String name) {
    int coils = plan.kindOf(name).coilOhm().size();
    add(
        FaultKind.DRIVER_REVERSED,
        name,
        coilsOf(name),
        "driver " + name + " is wired backwards",
        "Swap the leads of driver " + name + " and check again.",
        circuit -> circuit.withReversed(name));
    if (plan.drivers().size() > 1 && coils > 1) {
      add(
          FaultKind.DRIVER_DISCONNECTED,
          name,
          coilsOf(name),
          "driver " + name + " is not connected",
          "Look at the links of driver " + name + ", mend the open one and check again.",
          circuit -> circuit.withCoils(c -> c.driver().equals(name) ? new Circuit.Gap() : c));
    }
    for (int number = 1; number <= coils; number++) {
      ofCoil(name, number, coils);
    }
  }

  private void ofCoil(String driver, int number, int coils) {
    String coil = coils == 1 ? "driver " + driver : "coil " + number + " of driver " + driver;
    String id = driver + "." + number;
    Set<String> touched = Set.of("coil " + id);
    if (coils > 1) {
      add(
          FaultKind.COIL_REVERSED,
          id,
          touched,
          coil + " is wired backwards",
          "Swap the leads of " + coil + " and check again.",
          changed(driver, number, c -> new Coil(driver, number, !c.reversed())));
    }
    if (plan.wiring().coils().size() > 1) {
      add(
          FaultKind.COIL_OPEN,
          id,
          touched,
          coil + " is open or not connected",
          "Measure "
              + coil
              + " by itself with a meter, links off; mend the link or replace the"
              + " driver.",
          changed(driver, number, c -> new Circuit.Gap()));
    }
    add(
        FaultKind.COIL_SHORTED,
        id,
        touched,
        coil + " is shorted",
        "Take the links off and measure "
            + coil
            + " by itself with a meter; look for touching"
            + " strands.",
        changed(driver, number, c -> Circuit.parallel(c, new Circuit.Bridge())));
  }

  private static UnaryOperator<Circuit> changed(
      String driver, int number, java.util.function.Function<Coil, Circuit> change) {
    return circuit ->
        circuit.withCoils(
            c -> c.driver().equals(driver) && c.number() == number ? change.apply(c) : c);
  }

  private void addedResistance() {
    String name = "added resistance";
    faults.add(
        FaultKind.RESISTANCE_ADDED,
        "",
        Set.of(name),
        "a resistance is in series with the box: a bad joint, a long lead or a hot coil",
        "Let the coils cool, wiggle each joint while measuring, and measure the leads by"
            + " themselves.",
        candidate ->
            candidate
                .wired(c -> Circuit.series(new Circuit.Resistance(name, ADDED_OHM), c))
                .and(Unknown.planned(ANY_SIZE, new Quantity(name, Kind.RESISTANCE))));
  }

  private void sourceConnected() {
    String name = "source beside the box";
    faults.add(
        FaultKind.SOURCE_CONNECTED,
        "",
        Set.of(name),
        "an amplifier or something else of low resistance hangs beside the box",
        "Take everything but the jig off the terminals and check again.",
        candidate ->
            candidate
                .wired(c -> Circuit.parallel(c, new Circuit.Resistance(name, SOURCE_OHM)))
                .and(Unknown.planned(ANY_SIZE, new Quantity(name, Kind.RESISTANCE))));
  }

  private Set<String> coilsOf(String driver) {
    Set<String> coils = new HashSet<>();
    for (int number = 1; number <= plan.kindOf(driver).coilOhm().size(); number++) {
      coils.add("coil " + driver + "." + number);
    }
    return coils;
  }

  private Set<String> allCoils() {
    Set<String> coils = new HashSet<>();
    plan.drivers().forEach(driver -> coils.addAll(coilsOf(driver.name())));
    return coils;
  }

  /** The planned wiring stands somewhere in the circuit, leads and others about it. */
  private static Circuit replaced(Circuit in, Circuit planned, Circuit other) {
    if (in.equals(planned)) {
      return other;
    }
    if (in instanceof Circuit.Series series) {
      return new Circuit.Series(
          series.parts().stream().map(part -> replaced(part, planned, other)).toList());
    }
    if (in instanceof Circuit.Parallel parallel) {
      return new Circuit.Parallel(
          parallel.parts().stream().map(part -> replaced(part, planned, other)).toList());
    }
    return in;
  }

  private void add(
      FaultKind kind,
      String subject,
      Set<String> touches,
      String sentence,
      String remedy,
      UnaryOperator<Circuit> change) {
    faults.add(kind, subject, touches, sentence, remedy, candidate -> candidate.wired(change));
  }
}
