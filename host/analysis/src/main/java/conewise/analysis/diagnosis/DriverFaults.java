package conewise.analysis.diagnosis;

import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Set;

/** What can be wrong with the drivers themselves. */
final class DriverFaults {
  /** A cone that cannot move: no current moves it, and no air. */
  static final double NO_MOTOR_Q = 1e5;

  private static final double NO_COMPLIANCE_M3 = 1e-8;

  private static final double RUBS = -1.2;
  private static final double RUBS_SPREAD = 0.4;
  private static final double ASTRAY = 0.35;

  private final PlannedBox plan;
  private final FaultList faults;

  DriverFaults(PlannedBox plan, FaultList faults) {
    this.plan = plan;
    this.faults = faults;
  }

  void addAll() {
    for (PlannedBox.PlacedDriver placed : plan.drivers()) {
      ofDriver(placed);
    }
    if (plan.drivers().size() > 1) {
      allOfAnotherKind();
    }
  }

  private void ofDriver(PlannedBox.PlacedDriver placed) {
    String name = placed.name();
    faults.add(
        FaultKind.CONE_SEIZED,
        name,
        Set.of("motion of " + name),
        "the cone of driver " + name + " does not move",
        "Push the cone of driver "
            + name
            + " gently with flat fingers, amplifier off; replace a"
            + " seized driver.",
        candidate -> candidate.with(box -> box.withDriver(name, DriverFaults::seized)));
    faults.add(
        FaultKind.CONE_RUBS,
        name,
        Set.of("motion of " + name),
        "the coil of driver " + name + " rubs or its suspension is lossy",
        "Push the cone of driver " + name + " gently and listen; replace a rubbing driver.",
        candidate -> candidate.expecting(Kind.MECHANICAL_Q, RUBS, RUBS_SPREAD, name));
    faults.add(
        FaultKind.DRIVER_ASTRAY,
        name,
        Set.of("motion of " + name),
        "driver " + name + " is far from its datasheet",
        "Take driver " + name + " out and measure it in free air.",
        candidate -> astray(candidate, name));
    DriverKind kind = plan.kind(placed.kind());
    for (DriverKind other : plan.kinds()) {
      if (!other.name().equals(kind.name()) && other.coilOhm().size() == kind.coilOhm().size()) {
        faults.add(
            FaultKind.WRONG_DRIVER,
            name + "=" + other.name(),
            Set.of("motion of " + name),
            "driver " + name + " is a " + other.name() + ", not a " + kind.name(),
            "Compare the label of driver " + name + " with the plan and fit the right one.",
            candidate -> new KindExchange(plan, other).in(candidate, List.of(name)));
      }
    }
  }

  private void allOfAnotherKind() {
    for (DriverKind other : plan.kinds()) {
      List<String> names =
          plan.drivers().stream()
              .filter(d -> !d.kind().equals(other.name()))
              .filter(d -> plan.kindOf(d.name()).coilOhm().size() == other.coilOhm().size())
              .map(PlannedBox.PlacedDriver::name)
              .toList();
      if (names.size() == plan.drivers().size()) {
        Set<String> touches = Set.copyOf(names.stream().map(name -> "motion of " + name).toList());
        faults.add(
            FaultKind.WRONG_DRIVER,
            "all=" + other.name(),
            touches,
            "every driver is a " + other.name(),
            "Compare the drivers' labels with the plan and fit the right ones.",
            candidate -> new KindExchange(plan, other).in(candidate, names));
      }
    }
  }

  private static Driver seized(Driver driver) {
    return driver.withMotor(NO_MOTOR_Q, NO_COMPLIANCE_M3);
  }

  private static Candidate astray(Candidate candidate, String name) {
    return candidate
        .expecting(Kind.RESONANCE, 0, ASTRAY, name)
        .expecting(Kind.ELECTRICAL_Q, 0, ASTRAY, name)
        .expecting(Kind.MECHANICAL_Q, 0, ASTRAY, name)
        .expecting(Kind.EQUIVALENT_VOLUME, 0, ASTRAY, name);
  }
}
