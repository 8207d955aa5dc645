package conewise.analysis.diagnosis;

import conewise.analysis.model.Opening;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.plan.PlannedBox;
import java.util.Set;
import java.util.function.UnaryOperator;

/** What can be wrong with vents, radiators, volumes and seams. */
final class AirFaults {
  private static final double OFF = 0.2;
  private static final double OFF_SPREAD = 0.1;

  /** A hole without its duct: the air in the wall and about it is a third of the mass or less. */
  private static final double WITHOUT_DUCT = 0.6;

  private static final double LEAK = -1.4;
  private static final double LEAK_SPREAD = 0.5;
  private static final double HOLE_HZ = 14;
  private static final double HOLE_Q = 4;
  private static final double ANY_SIZE = 0.5;

  private final PlannedBox plan;
  private final FaultList faults;

  AirFaults(PlannedBox plan, FaultList faults) {
    this.plan = plan;
    this.faults = faults;
  }

  void addAll() {
    plan.vents().forEach(vent -> ofVent(vent.name()));
    plan.radiators().forEach(radiator -> ofRadiator(radiator.name()));
    plan.spaces().forEach(this::ofSpace);
    new LiningFaults(plan, faults).addAll();
  }

  private void ofVent(String name) {
    String vent = plan.vents().size() == 1 ? "the vent" : "vent " + name;
    add(
        FaultKind.VENT_CLOSED,
        name,
        vent + " is blocked",
        "Look into " + vent + ", clear it and check again.",
        candidate -> candidate.with(box -> box.without(name)));
    add(
        FaultKind.VENT_MISSING,
        name,
        vent + " has no duct behind its hole",
        "Fit the duct that the plan asks for and check again.",
        expecting(Kind.TUNING, WITHOUT_DUCT, LEAK_SPREAD / 2, name));
    add(
        FaultKind.VENT_TOO_LONG,
        name,
        vent + " is tuned too low: too long or too narrow",
        "Measure " + vent + " against the plan and shorten it.",
        expecting(Kind.TUNING, -OFF, OFF_SPREAD, name));
    add(
        FaultKind.VENT_TOO_SHORT,
        name,
        vent + " is tuned too high: too short or too wide",
        "Measure " + vent + " against the plan and lengthen it.",
        expecting(Kind.TUNING, OFF, OFF_SPREAD, name));
  }

  private void ofRadiator(String name) {
    String radiator =
        plan.radiators().size() == 1 ? "the passive radiator" : "passive radiator " + name;
    add(
        FaultKind.RADIATOR_SEIZED,
        name,
        radiator + " does not move",
        "Push " + radiator + " gently; free it or replace it.",
        candidate -> candidate.with(box -> box.without(name)));
    add(
        FaultKind.RADIATOR_HEAVY,
        name,
        radiator + " is too heavy",
        "Weigh the mass on " + radiator + " against the plan.",
        expecting(Kind.RESONANCE, -OFF, OFF_SPREAD, name));
    add(
        FaultKind.RADIATOR_LIGHT,
        name,
        radiator + " is too light",
        "Weigh the mass on " + radiator + " against the plan.",
        expecting(Kind.RESONANCE, OFF, OFF_SPREAD, name));
  }

  private void ofSpace(PlannedBox.PlannedSpace space) {
    String name = space.name();
    String where = plan.spaces().size() == 1 ? "the box" : "space " + name;
    add(
        FaultKind.LEAK,
        name,
        where + " leaks",
        "Play a low tone and pass a hand along the seams and gaskets; seal the leak.",
        expecting(Kind.LEAK_Q, LEAK, LEAK_SPREAD, "leak of " + name));
    add(
        FaultKind.HOLE,
        name,
        where + " has an open hole",
        "Look for a missing screw, plug or gasket; close the hole.",
        candidate -> withHole(candidate, name));
    if (space.volumeM3().isPresent()) {
      addVolume(FaultKind.VOLUME_TOO_SMALL, name, where + " is too small inside", -OFF);
      addVolume(FaultKind.VOLUME_TOO_LARGE, name, where + " is too large inside", OFF);
    }
  }

  private static Candidate withHole(Candidate candidate, String space) {
    String hole = "hole of " + space;
    return candidate
        .with(box -> box.with(new Opening.Vent(hole, HOLE_HZ, HOLE_Q, space, Space.OUTSIDE)))
        .expecting(Kind.TUNING, 0, ANY_SIZE, hole)
        .expecting(Kind.VENT_Q, 0, ANY_SIZE, hole);
  }

  private void addVolume(FaultKind kind, String space, String sentence, double off) {
    add(
        kind,
        space,
        sentence,
        "Look for bracing or lining that the plan does not have, and measure the box inside.",
        candidate -> new Resizing(plan).of(candidate, space, off, OFF_SPREAD));
  }

  private static UnaryOperator<Candidate> expecting(
      Kind kind, double centre, double spread, String part) {
    return candidate -> candidate.expecting(kind, centre, spread, part);
  }

  private void add(
      FaultKind kind,
      String subject,
      String sentence,
      String remedy,
      UnaryOperator<Candidate> change) {
    faults.add(kind, subject, Set.of("air of " + subject), sentence, remedy, change);
  }
}
