package conewise.station.study;

import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A plan of a study.
 *
 * @param name its name
 * @param full what the box is built to
 * @param given what the judge is told of it
 */
record StudyPlan(String name, PlannedBox full, PlannedBox given) {
  private static final List<String> FULL =
      List.of("heron", "wren", "plover", "teal", "snipe", "petrel", "gannet", "siskin");

  /** Plans of which the judge is told nearly nothing. */
  private static final List<String> BARE = List.of("heron", "teal");

  /** Plans that are built with a lining besides. */
  private static final List<String> LINED = List.of("heron", "wren");

  /** All of them. */
  static List<StudyPlan> all() throws BadFileException {
    List<StudyPlan> plans = new ArrayList<>();
    for (String name : FULL) {
      PlannedBox full = PlannedBoxFile.bundled(name);
      plans.add(new StudyPlan(name, full, full));
    }
    for (String name : BARE) {
      PlannedBox full = PlannedBoxFile.bundled(name);
      plans.add(new StudyPlan(name + "-bare", full, bare(full)));
    }
    for (String name : LINED) {
      PlannedBox lined = lined(PlannedBoxFile.bundled(name));
      plans.add(new StudyPlan(name + "-lined", lined, lined));
    }
    return plans;
  }

  /**
   * The same plan with a lining in every space; it asks for no least loss Q, which a lining has.
   */
  static PlannedBox lined(PlannedBox bare) {
    List<PlannedSpace> spaces =
        bare.spaces().stream()
            .map(space -> new PlannedSpace(space.name(), space.volumeM3(), true))
            .toList();
    Demands demands = bare.demands();
    return new PlannedBox(
        bare.name() + ", lined",
        bare.kinds(),
        bare.drivers(),
        spaces,
        bare.vents(),
        bare.radiators(),
        bare.wiring(),
        bare.leadOhm(),
        new Demands(
            demands.dcResistanceOhm(),
            demands.dcToleranceFraction(),
            demands.ratedImpedanceOhm(),
            demands.tuningHz(),
            demands.closedResonanceHz(),
            Map.of()));
  }

  /** The same plan with nothing but coils, volumes and what is asked of the tuning. */
  private static PlannedBox bare(PlannedBox full) {
    List<DriverKind> kinds =
        full.kinds().stream()
            .map(kind -> DriverKind.ofCoils(kind.name(), kind.coilOhm()))
            .limit(1)
            .toList();
    List<PlannedSpace> spaces =
        full.spaces().stream()
            .map(space -> new PlannedSpace(space.name(), Optional.empty(), space.lined()))
            .toList();
    List<PlannedVent> vents =
        full.vents().stream()
            .map(v -> new PlannedVent(v.name(), v.behind(), v.before(), v.tuningHz()))
            .toList();
    return new PlannedBox(
        full.name() + ", bare",
        kinds,
        full.drivers(),
        spaces,
        vents,
        full.radiators(),
        full.wiring(),
        full.leadOhm(),
        full.demands());
  }
}
