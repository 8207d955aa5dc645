package conewise.analysis.plan;

import conewise.analysis.fit.Unknown;
import conewise.analysis.fit.UsualUnknowns;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Driver.VoiceCoil;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/** Makes the model of a plan. The usual sizes are common practice, from memory. */
final class PlannedModel {
  private static final double USUAL_RESONANCE_HZ = 35;
  private static final double USUAL_MECHANICAL_Q = 5;
  private static final double USUAL_ELECTRICAL_Q = 0.5;
  private static final double USUAL_EQUIVALENT_VOLUME_M3 = 0.06;

  /** Spreads of what a plan does not say: a factor of about 1.6 either way. */
  private static final double WIDE = 0.45;

  private static final double WIDE_VOLUME = 0.8;

  /** Of all losses together Small (J. Audio Eng. Soc. 21, 1973) found QL 5 to 20: most is leaks. */
  private static final double USUAL_LEAK_Q = 14;

  /** So that nearly all tight boxes lie above 6. */
  private static final double LEAK_SPREAD = 0.4;

  /** So that nearly all vents that are not stuffed lie above 18. */
  private static final double USUAL_VENT_Q = 40;

  private static final double VENT_SPREAD = 0.4;

  /**
   * What walls, wires and a thin lining take, which no plan needs to mention: nearly all 15 up,
   * where the drivers resonate with the space.
   */
  private static final double UNLINED_Q = 40;

  private static final double UNLINED_SPREAD = 0.5;

  /** A lining from thin to a box stuffed full: 2.5 to 40. */
  private static final double LINING_Q = 10;

  private static final double LINING_SPREAD = 0.7;

  /** How much larger than stated a lined space may seem (common practice: up to 1.25 times). */
  private static final double LINED_VOLUME_SPREAD = 0.1;

  /** Two coils on one former share most of their flux (common practice, from memory). */
  private static final double USUAL_COUPLING = 0.8;

  private final PlannedBox plan;
  private final Map<Quantity, Double> spreads = new HashMap<>();

  PlannedModel(PlannedBox plan) {
    this.plan = plan;
  }

  BoxModel model() {
    List<Space> spaces = plan.spaces().stream().map(this::space).toList();
    List<Opening> openings = new ArrayList<>();
    Map<String, Driver> made = new HashMap<>();
    for (PlacedDriver placed : plan.drivers()) {
      Driver driver = made.computeIfAbsent(placed.kind(), kind -> driver(plan.kind(kind)));
      openings.add(new Opening.Mounted(placed.name(), driver, placed.behind(), placed.before()));
      note(placed);
    }
    plan.vents().forEach(vent -> openings.add(vent(vent)));
    plan.radiators().forEach(radiator -> openings.add(radiator(radiator)));
    for (PlannedSpace space : plan.spaces()) {
      String leak = "leak of " + space.name();
      openings.add(new Opening.Leak(leak, USUAL_LEAK_Q, space.name(), Space.OUTSIDE));
      spreads.put(new Quantity(leak, Kind.LEAK_Q), LEAK_SPREAD);
    }
    return UsualUnknowns.withUsualLosses(
        new BoxModel(Air.AT_20_CELSIUS, spaces, openings, circuit()));
  }

  List<Unknown> unknowns() {
    BoxModel model = model();
    List<Unknown> unknowns = new ArrayList<>();
    for (Unknown usual : UsualUnknowns.of(model)) {
      unknowns.add(
          usual.inherent() || !spreads.containsKey(usual.moves().get(0))
              ? usual
              : usual.within(spreads.get(usual.moves().get(0))));
    }
    if (plan.spaces().size() > 1) {
      for (PlannedSpace space : plan.spaces()) {
        double stated = space.volumeM3().map(Stated::spread).orElse(WIDE_VOLUME);
        double spread = space.lined() ? Math.hypot(stated, LINED_VOLUME_SPREAD) : stated;
        unknowns.add(Unknown.planned(spread, new Quantity(space.name(), Kind.VOLUME)));
      }
    }
    return unknowns;
  }

  private Circuit circuit() {
    return plan.leadOhm() == 0
        ? plan.wiring()
        : Circuit.series(new Circuit.Resistance("leads", plan.leadOhm()), plan.wiring());
  }

  private Driver driver(DriverKind kind) {
    double volume = kind.equivalentVolumeM3().map(Stated::value).orElse(usualEquivalentVolumeM3());
    List<VoiceCoil> coils = kind.coilOhm().stream().map(ohm -> new VoiceCoil(ohm.value())).toList();
    Inductance inductance =
        kind.inductanceHenry()
            .map(henry -> Inductance.plain(henry.value()))
            .orElse(Inductance.NONE);
    return new Driver(
        kind.resonanceHz().map(Stated::value).orElse(USUAL_RESONANCE_HZ),
        kind.mechanicalQ().map(Stated::value).orElse(USUAL_MECHANICAL_Q),
        kind.electricalQ().map(Stated::value).orElse(USUAL_ELECTRICAL_Q),
        volume,
        coils,
        inductance,
        coils.size() > 1 ? USUAL_COUPLING : 0,
        0,
        kind.areaM2().map(area -> OptionalDouble.of(area.value())).orElse(OptionalDouble.empty()),
        0);
  }

  /** Where nothing is said, about as much as the drivers have of air. */
  private double usualEquivalentVolumeM3() {
    List<Double> known =
        plan.spaces().stream()
            .flatMap(space -> space.volumeM3().stream().map(Stated::value))
            .toList();
    return known.isEmpty()
        ? USUAL_EQUIVALENT_VOLUME_M3
        : known.stream().collect(Collectors.averagingDouble(each -> each))
            * known.size()
            / plan.drivers().size();
  }

  private void note(PlacedDriver placed) {
    DriverKind kind = plan.kind(placed.kind());
    note(placed.name(), Kind.RESONANCE, kind.resonanceHz(), WIDE);
    note(placed.name(), Kind.MECHANICAL_Q, kind.mechanicalQ(), WIDE);
    note(placed.name(), Kind.ELECTRICAL_Q, kind.electricalQ(), WIDE);
    note(placed.name(), Kind.EQUIVALENT_VOLUME, kind.equivalentVolumeM3(), WIDE_VOLUME);
    note(placed.name(), Kind.COIL_RESISTANCE, Optional.of(kind.coilOhm().get(0)), WIDE);
  }

  private void note(String part, Kind kind, Optional<Stated> stated, double silent) {
    spreads.put(new Quantity(part, kind), stated.map(Stated::spread).orElse(silent));
  }

  private Space space(PlannedSpace space) {
    Space bare =
        new Space(
            space.name(), space.volumeM3().map(Stated::value).orElse(USUAL_EQUIVALENT_VOLUME_M3));
    spreads.put(
        new Quantity(space.name(), Kind.ABSORPTION_Q),
        space.lined() ? LINING_SPREAD : UNLINED_SPREAD);
    double quality = space.lined() ? LINING_Q : UNLINED_Q;
    return bare.lined(quality * resonanceHz(bare) / Space.LOSS_REFERENCE_HZ);
  }

  /** Of the drivers on a space with its air: fs sqrt(1 + Vas/V) (Small, 1972), their mean. */
  private double resonanceHz(Space space) {
    List<Driver> drivers =
        plan.drivers().stream()
            .filter(
                each -> each.behind().equals(space.name()) || each.before().equals(space.name()))
            .map(each -> driver(plan.kind(each.kind())))
            .toList();
    double vas = drivers.stream().mapToDouble(Driver::equivalentVolumeM3).sum();
    double fs = drivers.stream().mapToDouble(Driver::resonanceHz).average().orElseThrow();
    return fs * Math.sqrt(1 + vas / space.volumeM3());
  }

  private Opening vent(PlannedVent vent) {
    note(vent.name(), Kind.TUNING, vent.tuningHz(), WIDE);
    spreads.put(new Quantity(vent.name(), Kind.VENT_Q), VENT_SPREAD);
    double tuning = vent.tuningHz().map(Stated::value).orElseGet(this::usualTuningHz);
    return new Opening.Vent(vent.name(), tuning, USUAL_VENT_Q, vent.behind(), vent.before());
  }

  private double usualTuningHz() {
    return plan.kinds().get(0).resonanceHz().map(Stated::value).orElse(USUAL_RESONANCE_HZ);
  }

  private Opening radiator(PlannedRadiator radiator) {
    String name = radiator.name();
    note(name, Kind.RESONANCE, radiator.resonanceHz(), WIDE);
    note(name, Kind.MECHANICAL_Q, radiator.mechanicalQ(), WIDE);
    note(name, Kind.EQUIVALENT_VOLUME, radiator.equivalentVolumeM3(), WIDE_VOLUME);
    return new Opening.PassiveRadiator(
        name,
        radiator.resonanceHz().map(Stated::value).orElse(usualTuningHz() / 2),
        radiator.mechanicalQ().map(Stated::value).orElse(USUAL_MECHANICAL_Q),
        radiator.equivalentVolumeM3().map(Stated::value).orElse(usualEquivalentVolumeM3()),
        radiator.behind(),
        radiator.before());
  }
}
