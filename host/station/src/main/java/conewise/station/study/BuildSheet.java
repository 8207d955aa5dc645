package conewise.station.study;

import conewise.analysis.model.Circuit;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.BoxBuilder;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.HeatExchange;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import conewise.simulator.box.Wiring.CoilState;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * One box as it is built on the bench: every part with its own value, drawn about the plan. Faults
 * change the sheet; {@link #box} builds it by the simulator's physics.
 *
 * <p>Spreads of production (common practice, from memory), as standard deviations: compliance 12 %
 * for a batch and 4 % within, mass 2 %, mechanical loss 15 % and 8 %, force factor 3 % and 1.5 %,
 * coils 2 % and 1 %, volume 1 %, tuning 1.5 %. A bare space's loss Q is 30 to 150 or none, a lined
 * one's 4 to 20.
 */
final class BuildSheet {
  /** A driver by its physical values. */
  static final class BuiltDriver {
    double massKg;
    double compliance;
    double loss;
    double area;
    double force;
    double[] coilOhm;
    double coilScale;
    String behind;
    String before;

    /** fs = 1 / (2 pi sqrt(M C)). */
    double resonanceHz() {
      return 1 / (2 * Math.PI * Math.sqrt(massKg * compliance));
    }

    /** Re of all coils in series. */
    double resistanceOhm() {
      return Arrays.stream(coilOhm).sum();
    }

    /** Qts = sqrt(M / C) / (R + (Bl)^2 / Re), coils in series. */
    double totalQ() {
      double factor = force * coilOhm.length;
      return Math.sqrt(massKg / compliance) / (loss + factor * factor / resistanceOhm());
    }
  }

  /** A vent or a passive radiator by what it does to the space behind it. */
  static final class BuiltVent {
    String behind;
    String before;
    double tuningHz;
    double quality;
  }

  /** A passive radiator. */
  static final class BuiltRadiator {
    String behind;
    String before;
    double resonanceHz;
    double quality;
    double volumeLitre;
  }

  /**
   * A lining by what it does to the space that it is in.
   *
   * @param quality of its loss where the drivers resonate with the space
   * @param gain how much larger it makes the space seem to slow sound
   */
  record BuiltLining(double quality, double gain) {}

  /** What the lining adds to the volume that a lined box's vent is cut for. */
  private static final double PLANNED_GAIN = 0.1;

  private static final double PIECE_AREA_M2 = 0.03;

  final Map<String, BuiltDriver> drivers = new LinkedHashMap<>();
  final Map<String, Double> litres = new LinkedHashMap<>();
  final Map<String, Double> leakQ = new LinkedHashMap<>();
  final Map<String, BuiltLining> linings = new LinkedHashMap<>();

  /** Where the loss of each space's lining is stated: sound drivers' resonance with its air. */
  private final Map<String, Double> liningHz = new LinkedHashMap<>();

  final Map<String, BuiltVent> vents = new LinkedHashMap<>();
  final Map<String, BuiltRadiator> radiators = new LinkedHashMap<>();
  final Air air;
  Circuit circuit;
  double leadOhm;
  double besideOhm = Double.POSITIVE_INFINITY;

  private final Inductance coil;
  private final double coupling;

  BuildSheet(PlannedBox plan, Random random) {
    air = Air.at(15 + 13 * random.nextDouble());
    circuit = plan.wiring();
    leadOhm = plan.leadOhm() * (0.7 + 0.6 * random.nextDouble());
    coil =
        Inductance.stepped(
            between(random, 0.2e-3, 0.6e-3), between(random, 0.5e-3, 2e-3), between(random, 2, 8));
    coupling = between(random, 0.7, 0.95);
    Map<String, double[]> batches = new LinkedHashMap<>();
    for (PlannedBox.PlacedDriver placed : plan.drivers()) {
      double[] batch =
          batches.computeIfAbsent(
              placed.kind(),
              kind ->
                  new double[] {
                    factor(random, 0.12),
                    factor(random, 0.15),
                    factor(random, 0.03),
                    factor(random, 0.02)
                  });
      BuiltDriver built = driver(plan.kindOf(placed.name()), batch, random);
      built.behind = placed.behind();
      built.before = placed.before();
      drivers.put(placed.name(), built);
    }
    for (PlannedBox.PlannedSpace space : plan.spaces()) {
      litres.put(space.name(), 1e3 * value(space.volumeM3(), 0.06) * factor(random, 0.01));
      leakQ.put(space.name(), between(random, 12, 40));
    }
    for (PlannedBox.PlannedVent vent : plan.vents()) {
      BuiltVent built = new BuiltVent();
      built.behind = vent.behind();
      built.before = vent.before();
      built.tuningHz = value(vent.tuningHz(), 35) * factor(random, 0.015);
      built.quality = between(random, 30, 80);
      vents.put(vent.name(), built);
    }
    for (PlannedBox.PlannedRadiator radiator : plan.radiators()) {
      BuiltRadiator built = new BuiltRadiator();
      built.behind = radiator.behind();
      built.before = radiator.before();
      built.resonanceHz = value(radiator.resonanceHz(), 16) * factor(random, 0.04);
      built.quality = value(radiator.mechanicalQ(), 6) * factor(random, 0.15);
      built.volumeLitre = 1e3 * value(radiator.equivalentVolumeM3(), 0.1) * factor(random, 0.05);
      radiators.put(radiator.name(), built);
    }
    litres.forEach((space, litre) -> liningHz.put(space, resonanceHz(space, litre)));
    plan.spaces().forEach(space -> line(space, random));
  }

  /** Half of all bare boxes have walls and wires that take a little; vents suit what is planned. */
  private void line(PlannedBox.PlannedSpace space, Random random) {
    if (space.lined()) {
      linings.put(
          space.name(), new BuiltLining(between(random, 4, 20), between(random, 0.07, 0.13)));
      vents.values().stream()
          .filter(vent -> vent.behind.equals(space.name()))
          .forEach(vent -> vent.tuningHz *= Math.sqrt(1 + PLANNED_GAIN));
    } else if (random.nextBoolean()) {
      linings.put(
          space.name(), new BuiltLining(between(random, 30, 150), between(random, 0, 0.03)));
    }
  }

  static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  static double factor(Random random, double deviation) {
    return Math.exp(deviation * random.nextGaussian());
  }

  private static double value(java.util.Optional<Stated> stated, double silent) {
    return stated.map(Stated::value).orElse(silent);
  }

  /** A driver of a kind: its physical values by the simulator, each drawn about them. */
  BuiltDriver driver(DriverKind kind, double[] batch, Random random) {
    double ohm = kind.coilOhm().get(0).value();
    Driver sheet =
        Driver.ofParameters(
            Air.ROOM,
            value(kind.resonanceHz(), 35),
            value(kind.mechanicalQ(), 5),
            value(kind.electricalQ(), 0.5),
            1e3 * value(kind.equivalentVolumeM3(), 0.06),
            value(kind.areaM2(), PIECE_AREA_M2),
            ohm,
            kind.coilOhm().size());
    BuiltDriver built = new BuiltDriver();
    built.massKg = sheet.massKg() * factor(random, 0.02);
    built.compliance = sheet.complianceMPerN() * batch[0] * factor(random, 0.04);
    built.loss = sheet.lossNsPerM() * batch[1] * factor(random, 0.08);
    built.area = sheet.areaM2();
    built.force = sheet.coils().get(0).forceFactorTm() * batch[2] * factor(random, 0.015);
    built.coilOhm = new double[kind.coilOhm().size()];
    for (int i = 0; i < built.coilOhm.length; i++) {
      built.coilOhm[i] = kind.coilOhm().get(i).value() * batch[3] * factor(random, 0.01);
    }
    // The inductance of a coil goes about with its resistance.
    built.coilScale = ohm / 4;
    return built;
  }

  /** The fitted tuning that an ideal measurement finds for a space; 0 where it has no vent. */
  double tuningHz(String space) {
    double gain = linings.containsKey(space) ? linings.get(space).gain : 0;
    return Math.sqrt(
        vents.values().stream()
                .filter(vent -> vent.behind.equals(space))
                .mapToDouble(vent -> vent.tuningHz * vent.tuningHz)
                .sum()
            / (1 + gain));
  }

  /** The box. */
  Box box() {
    BoxBuilder builder = Box.in(air);
    Map<String, Space> spaces = new LinkedHashMap<>();
    litres.forEach((name, litre) -> spaces.put(name, space(name, litre)));
    spaces.values().forEach(builder::space);
    drivers.forEach(
        (name, built) ->
            builder.opening(
                new Opening.DriverOpening(name, driver(built), built.before, built.behind)));
    vents.forEach((name, vent) -> builder.opening(vent(name, vent, spaces)));
    radiators.forEach((name, radiator) -> builder.opening(radiator(name, radiator)));
    leakQ.forEach((space, quality) -> builder.leak("leak_of_" + space, space, quality, 40));
    Wiring wiring = wiring(circuit);
    List<Wiring> whole = new ArrayList<>(List.of(wiring));
    if (leadOhm > 0) {
      whole.add(0, Wiring.ohm(leadOhm));
    }
    Wiring box = whole.size() == 1 ? wiring : new Wiring.Series(whole);
    return builder.wired(
        Double.isInfinite(besideOhm) ? box : Wiring.parallel(box, Wiring.ohm(besideOhm)));
  }

  private Space space(String name, double litre) {
    Space bare = Space.litres(name, litre);
    BuiltLining lining = linings.get(name);
    return lining == null
        ? bare
        : bare.lined(air, lining.quality, liningHz.get(name)).with(HeatExchange.of(lining.gain));
  }

  /** The root of (suspension's stiffness + air's stiffness S^2/C) over the mass, about 2 pi. */
  private double resonanceHz(String space, double litre) {
    double area =
        drivers.values().stream()
            .filter(driver -> driver.behind.equals(space) || driver.before.equals(space))
            .mapToDouble(driver -> driver.area)
            .sum();
    double airStiffness = air.bulkModulusPa() / (litre / 1000);
    return drivers.values().stream()
            .filter(driver -> driver.behind.equals(space) || driver.before.equals(space))
            .mapToDouble(
                driver ->
                    (1 / driver.compliance + airStiffness * driver.area * area) / driver.massKg)
            .map(Math::sqrt)
            .average()
            .orElseThrow()
        / (2 * Math.PI);
  }

  private Driver driver(BuiltDriver built) {
    List<Coil> coils = new ArrayList<>();
    for (double ohm : built.coilOhm) {
      coils.add(new Coil(ohm, built.force));
    }
    return new Driver(
        built.massKg,
        built.compliance,
        built.loss,
        built.area,
        coils,
        coil.times(built.coilScale),
        coils.size() > 1 ? coupling : 0);
  }

  private Opening vent(String name, BuiltVent vent, Map<String, Space> spaces) {
    Opening.Vent made =
        Opening.Vent.tuning(name, air, spaces.get(vent.behind), vent.tuningHz, vent.quality);
    return new Opening.Vent(
        name, made.massKgPerM4(), made.lossPaSPerM3(), vent.before, vent.behind);
  }

  private Opening radiator(String name, BuiltRadiator built) {
    Driver like =
        Driver.ofParameters(
            air, built.resonanceHz, built.quality, 1, built.volumeLitre, PIECE_AREA_M2, 4, 1);
    return new Opening.PassiveRadiator(
        name,
        like.massKg(),
        like.complianceMPerN(),
        like.lossNsPerM(),
        PIECE_AREA_M2,
        built.before,
        built.behind);
  }

  private static Wiring wiring(Circuit circuit) {
    if (circuit instanceof Circuit.Coil leaf) {
      return new Wiring.CoilLeads(leaf.driver(), leaf.number(), leaf.reversed(), CoilState.SOUND);
    }
    if (circuit instanceof Circuit.Series series) {
      return new Wiring.Series(series.parts().stream().map(BuildSheet::wiring).toList());
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      return new Wiring.Parallel(parallel.parts().stream().map(BuildSheet::wiring).toList());
    }
    if (circuit instanceof Circuit.Resistance resistance) {
      return Wiring.ohm(resistance.ohm());
    }
    return circuit instanceof Circuit.Gap ? new Wiring.OpenCircuit() : new Wiring.Link();
  }
}
