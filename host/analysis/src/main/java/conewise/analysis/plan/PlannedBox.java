package conewise.analysis.plan;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A box as it should be: its parts as far as they are known, and what must hold. {@link #model} is
 * the box as planned, {@link #unknowns} how far a well built one may lie from it.
 *
 * @param name for people
 * @param kinds the kinds of driver in it, and others that the shop has, told apart by name
 * @param drivers the drivers, at least one
 * @param spaces the air spaces
 * @param vents the vents
 * @param radiators the passive radiators
 * @param wiring how the coils are joined and which way round; each coil once
 * @param leadOhm resistance of the leads inside the box, 0 where not known
 * @param demands what must hold
 */
public record PlannedBox(
    String name,
    List<DriverKind> kinds,
    List<PlacedDriver> drivers,
    List<PlannedSpace> spaces,
    List<PlannedVent> vents,
    List<PlannedRadiator> radiators,
    Circuit wiring,
    double leadOhm,
    Demands demands) {

  /**
   * A driver in its place.
   *
   * @param name its name in the box
   * @param kind the name of its kind
   * @param behind the space on the magnet's side, or {@link Space#OUTSIDE}
   * @param before the space on the cone's side
   */
  public record PlacedDriver(String name, String kind, String behind, String before) {}

  /**
   * An air space.
   *
   * @param name its name
   * @param volumeM3 net volume in cubic metres, where known
   * @param lined true where it has stuffing or more than a thin lining
   */
  public record PlannedSpace(String name, Optional<Stated> volumeM3, boolean lined) {}

  /**
   * A vent.
   *
   * @param name its name
   * @param behind the space that it tunes
   * @param before where it leads to
   * @param tuningHz what it alone tunes that space to, where known
   */
  public record PlannedVent(String name, String behind, String before, Optional<Stated> tuningHz) {}

  /**
   * A passive radiator.
   *
   * @param name its name
   * @param behind the space that drives it
   * @param before where it radiates to
   * @param resonanceHz its resonance in free air, where known
   * @param mechanicalQ its Qms, where known
   * @param equivalentVolumeM3 its Vas in cubic metres, where known
   */
  public record PlannedRadiator(
      String name,
      String behind,
      String before,
      Optional<Stated> resonanceHz,
      Optional<Stated> mechanicalQ,
      Optional<Stated> equivalentVolumeM3) {}

  public PlannedBox {
    kinds = List.copyOf(kinds);
    drivers = List.copyOf(drivers);
    spaces = List.copyOf(spaces);
    vents = List.copyOf(vents);
    radiators = List.copyOf(radiators);
    if (!(leadOhm >= 0) || Double.isInfinite(leadOhm)) {
      throw new IllegalArgumentException(
          "the leads have " + leadOhm + " ohm; they must have a finite value of at least 0 ohm");
    }
    Set<String> names = new HashSet<>();
    for (DriverKind kind : kinds) {
      if (!names.add(kind.name())) {
        throw new IllegalArgumentException("two kinds of driver are named " + kind.name());
      }
    }
    for (PlacedDriver driver : drivers) {
      if (!names.contains(driver.kind())) {
        throw new IllegalArgumentException(
            "driver "
                + driver.name()
                + " is of the kind "
                + driver.kind()
                + ", which is not given");
      }
    }
    for (PlannedSpace space : spaces) {
      if (drivers.stream()
          .noneMatch(d -> d.behind().equals(space.name()) || d.before().equals(space.name()))) {
        throw new IllegalArgumentException("no driver works on the space " + space.name());
      }
    }
  }

  /** The kind of a name. */
  public DriverKind kind(String kindName) {
    return kinds.stream()
        .filter(each -> each.name().equals(kindName))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no kind of driver is named " + kindName));
  }

  /** The kind of a driver in the box. */
  public DriverKind kindOf(String driver) {
    return kind(
        drivers.stream()
            .filter(each -> each.name().equals(driver))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no driver is named " + driver))
            .kind());
  }

  /** The same plan with drivers of another kind at some places. */
  public PlannedBox withKind(List<String> names, String otherKind) {
    List<PlacedDriver> exchanged =
        drivers.stream()
            .map(
                each ->
                    names.contains(each.name())
                        ? new PlacedDriver(each.name(), otherKind, each.behind(), each.before())
                        : each)
            .toList();
    return new PlannedBox(
        name, kinds, exchanged, spaces, vents, radiators, wiring, leadOhm, demands);
  }

  /** The box as planned, usual values standing where the plan is silent. */
  public BoxModel model() {
    return new PlannedModel(this).model();
  }

  /** What may lie off the plan in a well built box, and how far. */
  public List<Unknown> unknowns() {
    return new PlannedModel(this).unknowns();
  }
}
