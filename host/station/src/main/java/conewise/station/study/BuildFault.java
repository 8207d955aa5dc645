package conewise.station.study;

import static conewise.station.study.BuildSheet.between;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.plan.PlannedBox;
import conewise.station.study.BuildSheet.BuiltDriver;
import conewise.station.study.BuildSheet.BuiltLining;
import conewise.station.study.BuildSheet.BuiltVent;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/**
 * Builds a fault into a box. Its name is the diagnosis's, so that truth and verdict can be
 * compared; its size is drawn here, and what it does is left to the simulator.
 */
final class BuildFault {
  /**
   * Nobody builds these in: the one shows nowhere, the others are the judge's names for the odd.
   */
  private static final Set<FaultKind> NOT_BUILT =
      EnumSet.of(
          FaultKind.BOX_REVERSED,
          FaultKind.DRIVER_ASTRAY,
          FaultKind.VENT_MISSING,
          FaultKind.OTHER_BOX);

  private static final Set<FaultKind> WIRING =
      EnumSet.of(
          FaultKind.DRIVER_REVERSED,
          FaultKind.COIL_REVERSED,
          FaultKind.COIL_OPEN,
          FaultKind.COIL_SHORTED,
          FaultKind.DRIVER_DISCONNECTED,
          FaultKind.WIRED_OTHERWISE);

  private BuildFault() {}

  /**
   * The faults that can be built into a box. A lone driver reversed is a box reversed as a whole,
   * which no verdict from the terminals claims to see.
   */
  static List<Fault> of(PlannedBox plan, List<Fault> known) {
    boolean lone = plan.drivers().size() == 1;
    return known.stream()
        .filter(fault -> !NOT_BUILT.contains(fault.kind()))
        .filter(fault -> !(lone && fault.kind() == FaultKind.DRIVER_REVERSED))
        .toList();
  }

  /** Both of two drivers reversed: that too is a box reversed as a whole. */
  static boolean reverseWhole(PlannedBox plan, Fault one, Fault other) {
    return plan.drivers().size() == 2
        && one.kind() == FaultKind.DRIVER_REVERSED
        && other.kind() == FaultKind.DRIVER_REVERSED;
  }

  static void build(Fault fault, BuildSheet sheet, PlannedBox plan, Random random) {
    if (WIRING.contains(fault.kind())) {
      Candidate planned = new Candidate(plan.model().withCircuit(sheet.circuit), List.of());
      sheet.circuit = fault.change().apply(planned).model().circuit();
      return;
    }
    String subject =
        fault.id().contains(":") ? fault.id().substring(fault.id().indexOf(':') + 1) : "";
    switch (fault.kind()) {
      case VENT_CLOSED -> sheet.vents.remove(subject);
      case VENT_TOO_LONG -> sheet.vents.get(subject).tuningHz *= between(random, 0.75, 0.9);
      case VENT_TOO_SHORT -> sheet.vents.get(subject).tuningHz *= between(random, 1.1, 1.25);
      case VOLUME_TOO_SMALL -> volume(sheet, subject, between(random, 0.75, 0.85));
      case VOLUME_TOO_LARGE -> volume(sheet, subject, between(random, 1.15, 1.25));
      case LEAK -> sheet.leakQ.put(subject, between(random, 2, 4));
      case HOLE -> hole(sheet, subject, random);
      case STUFFING_UNPLANNED -> {
        BuiltLining stuffing = new BuiltLining(between(random, 2, 7), between(random, 0.08, 0.22));
        spaces(plan, subject, false).forEach(space -> sheet.linings.put(space, stuffing));
      }
      case STUFFING_MISSING -> spaces(plan, subject, true).forEach(sheet.linings::remove);
      case WRONG_DRIVER -> wrongDriver(sheet, plan, subject, random);
      case CONE_SEIZED -> {
        // Stuck in the gap: hardly any way to go, and what there is rubs.
        sheet.drivers.get(subject).compliance *= 1e-3;
        sheet.drivers.get(subject).loss *= 50;
      }
      case CONE_RUBS -> sheet.drivers.get(subject).loss *= between(random, 3, 5);
      case RADIATOR_SEIZED -> sheet.radiators.remove(subject);
      case RADIATOR_HEAVY ->
          sheet.radiators.get(subject).resonanceHz *= between(random, 0.75, 0.87);
      case RADIATOR_LIGHT -> sheet.radiators.get(subject).resonanceHz *= between(random, 1.15, 1.3);
      case RESISTANCE_ADDED -> sheet.leadOhm += between(random, 0.5, 2);
      case SOURCE_CONNECTED -> sheet.besideOhm = between(random, 0.05, 0.3);
      default -> throw new IllegalArgumentException("no way to build " + fault.id());
    }
  }

  /** The space that a fault names, or all that are lined or not. */
  private static List<String> spaces(PlannedBox plan, String subject, boolean lined) {
    return plan.spaces().stream()
        .filter(
            space -> subject.equals("all") ? space.lined() == lined : space.name().equals(subject))
        .map(PlannedBox.PlannedSpace::name)
        .toList();
  }

  /** The vent stays as it is: what it tunes to goes with the root of the volume. */
  private static void volume(BuildSheet sheet, String space, double factor) {
    sheet.litres.merge(space, factor, (litre, by) -> litre * by);
    for (BuiltVent vent : sheet.vents.values()) {
      if (vent.behind.equals(space)) {
        vent.tuningHz /= Math.sqrt(factor);
      }
    }
  }

  private static void hole(BuildSheet sheet, String space, Random random) {
    BuiltVent hole = new BuiltVent();
    hole.behind = space;
    hole.before = conewise.simulator.box.Space.OUTSIDE;
    hole.tuningHz = between(random, 9, 18);
    hole.quality = between(random, 3, 8);
    sheet.vents.put("hole", hole);
  }

  private static void wrongDriver(
      BuildSheet sheet, PlannedBox plan, String subject, Random random) {
    String place = subject.substring(0, subject.indexOf('='));
    String kind = subject.substring(subject.indexOf('=') + 1);
    double[] batch = {
      BuildSheet.factor(random, 0.12),
      BuildSheet.factor(random, 0.15),
      BuildSheet.factor(random, 0.03),
      BuildSheet.factor(random, 0.02)
    };
    for (String name : List.copyOf(sheet.drivers.keySet())) {
      if (place.equals("all") || place.equals(name)) {
        BuiltDriver before = sheet.drivers.get(name);
        BuiltDriver other = sheet.driver(plan.kind(kind), batch, random);
        other.behind = before.behind;
        other.before = before.before;
        sheet.drivers.put(name, other);
      }
    }
  }
}
