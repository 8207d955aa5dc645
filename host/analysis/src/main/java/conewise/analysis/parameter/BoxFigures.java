package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * What a fitted box comes to, in the trade's figures.
 *
 * @param drivers the drivers; like ones that the terminals cannot tell apart stand together
 * @param spaces the spaces that a driver works on
 * @param radiators the passive radiators
 * @param dcResistanceOhm of the whole circuit at the terminals, leads included
 */
public record BoxFigures(
    List<DriverFigure> drivers,
    List<SpaceFigure> spaces,
    List<RadiatorFigure> radiators,
    Outcome<Estimate> dcResistanceOhm) {

  /**
   * A driver, or several like ones by their mean (geometric).
   *
   * @param names which
   * @param dcResistanceOhm Re of one, all coils in series
   * @param resonanceHz fs
   * @param mechanicalQ Qms of all losses
   * @param electricalQ Qes
   * @param totalQ Qts
   * @param equivalentVolumeM3 Vas
   */
  public record DriverFigure(
      List<String> names,
      Outcome<Estimate> dcResistanceOhm,
      Outcome<Estimate> resonanceHz,
      Outcome<Estimate> mechanicalQ,
      Outcome<Estimate> electricalQ,
      Outcome<Estimate> totalQ,
      Outcome<Estimate> equivalentVolumeM3) {
    public DriverFigure {
      names = List.copyOf(names);
    }
  }

  /**
   * A space.
   *
   * @param name which
   * @param complianceRatio Vas of all drivers on it, over its volume
   * @param tuningHz the fitted tuning of its vent, or of all its vents together; of its passive
   *     radiator
   * @param totalLossQ losses of box, vent and drivers together at the tuning, as the Q of one leak
   *     that would raise the dip as much: they do not separate in one open sweep
   * @param closedResonanceHz fc, where nothing but drivers and leaks opens it
   * @param closedTotalQ Qtc there
   */
  public record SpaceFigure(
      String name,
      Outcome<Estimate> complianceRatio,
      Outcome<Estimate> tuningHz,
      Outcome<Estimate> totalLossQ,
      Outcome<Estimate> closedResonanceHz,
      Outcome<Estimate> closedTotalQ) {}

  /**
   * A passive radiator.
   *
   * @param name which
   * @param resonanceHz its resonance in free air
   * @param mechanicalQ its Qms
   * @param equivalentVolumeM3 its Vas
   */
  public record RadiatorFigure(
      String name,
      Outcome<Estimate> resonanceHz,
      Outcome<Estimate> mechanicalQ,
      Outcome<Estimate> equivalentVolumeM3) {}

  public BoxFigures {
    drivers = List.copyOf(drivers);
    spaces = List.copyOf(spaces);
    radiators = List.copyOf(radiators);
  }

  /**
   * Reads a fit.
   *
   * @param box the model of the first of its sweeps
   */
  public static BoxFigures of(BoxFit fit, BoxModel box) {
    List<DriverFigure> drivers = new ArrayList<>();
    for (List<String> names : likeDrivers(box)) {
      drivers.add(driver(fit, box, names));
    }
    List<SpaceFigure> spaces = new ArrayList<>();
    for (Space space : box.spaces()) {
      if (!driversOn(box, space).isEmpty()) {
        spaces.add(new SpaceReading(fit, box, space).figure());
      }
    }
    List<RadiatorFigure> radiators = new ArrayList<>();
    for (Opening opening : box.openings()) {
      if (opening instanceof PassiveRadiator) {
        radiators.add(radiator(fit, opening.name()));
      }
    }
    Outcome<Estimate> ohm =
        fit.estimate("the DC resistance", v -> CircuitOhm.of(box.circuit(), box, v));
    return new BoxFigures(drivers, spaces, radiators, ohm);
  }

  private static RadiatorFigure radiator(BoxFit fit, String name) {
    return new RadiatorFigure(
        name,
        fit.estimate(new Quantity(name, Kind.RESONANCE)),
        fit.estimate(new Quantity(name, Kind.MECHANICAL_Q)),
        fit.estimate(new Quantity(name, Kind.EQUIVALENT_VOLUME)));
  }

  /**
   * Drivers of like statement and place; exchanging two of them leaves the terminals as they are.
   */
  private static List<List<String>> likeDrivers(BoxModel box) {
    Map<List<Object>, List<String>> groups = new LinkedHashMap<>();
    for (Mounted mounted : box.drivers()) {
      List<Object> alike =
          List.of(
              mounted.driver(),
              mounted.behind(),
              mounted.before(),
              reversed(box.circuit(), mounted.name()));
      groups.computeIfAbsent(alike, key -> new ArrayList<>()).add(mounted.name());
    }
    return List.copyOf(groups.values());
  }

  /** For each coil of a driver in the circuit, whether it is reversed. */
  private static List<Boolean> reversed(Circuit circuit, String driver) {
    if (circuit instanceof Circuit.Coil coil) {
      return coil.driver().equals(driver) ? List.of(coil.reversed()) : List.of();
    }
    List<Circuit> parts =
        circuit instanceof Circuit.Series series
            ? series.parts()
            : circuit instanceof Circuit.Parallel parallel ? parallel.parts() : List.of();
    return parts.stream().flatMap(part -> reversed(part, driver).stream()).toList();
  }

  private static DriverFigure driver(BoxFit fit, BoxModel box, List<String> names) {
    Driver driver = box.driver(names.get(0));
    List<DriverFunctions> each =
        names.stream()
            .map(name -> new DriverFunctions(name, driver, box.air().bulkModulusPa(), 1))
            .toList();
    String of = " of " + String.join(" and ", names);
    return new DriverFigure(
        names,
        fit.estimate("Re" + of, v -> mean(each, f -> f.resistance(v))),
        fit.estimate("fs" + of, v -> mean(each, f -> f.resonance(v))),
        fit.estimate("Qms" + of, v -> mean(each, f -> f.mechanicalQ(v))),
        fit.estimate("Qes" + of, v -> mean(each, f -> f.electricalQ(v))),
        fit.estimate("Qts" + of, v -> mean(each, f -> f.totalQ(v))),
        fit.estimate("Vas" + of, v -> mean(each, f -> f.equivalentVolume(v))));
  }

  static double mean(List<DriverFunctions> each, ToDoubleFunction<DriverFunctions> figure) {
    return Math.exp(
        each.stream().mapToDouble(f -> Math.log(figure.applyAsDouble(f))).average().orElseThrow());
  }

  static List<Mounted> driversOn(BoxModel box, Space space) {
    return box.drivers().stream()
        .filter(m -> m.behind().equals(space.name()) || m.before().equals(space.name()))
        .toList();
  }
}
