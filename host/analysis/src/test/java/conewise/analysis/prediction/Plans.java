package conewise.analysis.prediction;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Invented plans: 10-inch drivers of fs 32 Hz, vented spaces tuned to 34 Hz. */
final class Plans {
  static final double FS_HZ = 32;

  private Plans() {}

  static DriverKind kind(double... coilOhm) {
    return new DriverKind(
        "ten inch",
        IntStream.range(0, coilOhm.length).mapToObj(i -> new Stated(coilOhm[i], 0.05)).toList(),
        Optional.of(new Stated(FS_HZ, 0.12)),
        Optional.of(new Stated(7.5, 0.3)),
        Optional.of(new Stated(0.62, 0.15)),
        Optional.of(new Stated(0.0295, 0.15)),
        Optional.empty(),
        Optional.empty());
  }

  /** Drivers a, b, c... on one space of so many litres each; tuned where not NaN. */
  static PlannedBox shared(DriverKind kind, int drivers, Optional<Stated> tuning, Circuit wiring) {
    List<String> names = Stream.of("a", "b", "c", "d", "e", "f", "g", "h").limit(drivers).toList();
    return box(
        kind,
        names.stream().map(name -> placed(name, "main")).toList(),
        List.of(space("main", 0.030 * drivers)),
        tuning.stream().map(t -> vent("port", "main", t)).toList(),
        wiring);
  }

  /** Two drivers, each on a vented space of its own. */
  static PlannedBox separate(DriverKind kind, Circuit wiring) {
    return box(
        kind,
        List.of(placed("a", "top"), placed("b", "bottom")),
        List.of(space("top", 0.03), space("bottom", 0.03)),
        List.of(vent("upper", "top", tuned()), vent("lower", "bottom", tuned())),
        wiring);
  }

  static Stated tuned() {
    return new Stated(34, 0.03);
  }

  /** The coils of each driver in series, the drivers in parallel. */
  static Circuit twoOfTwo() {
    return Circuit.parallel(
        Circuit.series(Circuit.coil("a", 1), Circuit.coil("a", 2)),
        Circuit.series(Circuit.coil("b", 1), Circuit.coil("b", 2)));
  }

  private static PlannedBox box(
      DriverKind kind,
      List<PlannedBox.PlacedDriver> drivers,
      List<PlannedBox.PlannedSpace> spaces,
      List<PlannedBox.PlannedVent> vents,
      Circuit wiring) {
    return new PlannedBox(
        "plan", List.of(kind), drivers, spaces, vents, List.of(), wiring, 0.05, Demands.NONE);
  }

  private static PlannedBox.PlacedDriver placed(String name, String space) {
    return new PlannedBox.PlacedDriver(name, "ten inch", space, Space.OUTSIDE);
  }

  private static PlannedBox.PlannedSpace space(String name, double volumeM3) {
    return new PlannedBox.PlannedSpace(name, Optional.of(new Stated(volumeM3, 0.03)), false);
  }

  private static PlannedBox.PlannedVent vent(String name, String space, Stated tuning) {
    return new PlannedBox.PlannedVent(name, space, Space.OUTSIDE, Optional.of(tuning));
  }
}
