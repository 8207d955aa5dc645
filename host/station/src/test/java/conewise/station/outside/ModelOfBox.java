package conewise.station.outside;

import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Space;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Wiring;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;

/**
 * A virtual jig's box as the analysis describes one. The jig's boxes are masses, springs and
 * losses; the analysis has fs, Qms, Qes, Vas, tunings and qualities (relations of R. H. Small, J.
 * Audio Eng. Soc. 20 and 21, 1972 and 1973, from memory), written out here by hand.
 */
final class ModelOfBox {
  private final Box box;
  private final double bulk;
  private final Function<conewise.simulator.box.Inductance, Inductance> inductance;

  private ModelOfBox(Box box, Function<conewise.simulator.box.Inductance, Inductance> inductance) {
    this.box = box;
    this.inductance = inductance;
    bulk = box.air().densityKgPerM3() * box.air().speedMPerS() * box.air().speedMPerS();
  }

  /** The model of a box whose drivers have plain inductances. */
  static BoxModel of(Box box) {
    return of(box, coil -> Inductance.plain(coil.seriesHenry()));
  }

  static BoxModel of(Box box, Function<conewise.simulator.box.Inductance, Inductance> inductance) {
    return new ModelOfBox(box, inductance).model();
  }

  private BoxModel model() {
    return new BoxModel(
        new Air(box.air().densityKgPerM3(), box.air().speedMPerS()),
        box.spaces().stream().map(this::space).toList(),
        box.openings().stream().map(this::opening).toList(),
        circuit(box.terminals()));
  }

  private static double turns(double hz) {
    return 2 * Math.PI * hz;
  }

  /** R = 1/(w Q C). */
  private Space space(conewise.simulator.box.Space space) {
    double compliance = space.volumeM3() / bulk;
    double loss = space.absorptionPaSPerM3();
    Space plain = new Space(space.name(), space.volumeM3());
    return loss == 0
        ? plain
        : plain.lined(1 / (turns(Space.LOSS_REFERENCE_HZ) * loss * compliance));
  }

  private Opening opening(conewise.simulator.box.Opening opening) {
    if (opening instanceof conewise.simulator.box.Opening.DriverOpening each) {
      return new Opening.Mounted(each.name(), driver(each.driver()), each.rear(), each.front());
    }
    // A vent or leak refers to the enclosed space, which the analysis calls the one behind.
    boolean turned = opening.rear().equals(Space.OUTSIDE);
    String behind = turned ? opening.front() : opening.rear();
    String before = turned ? opening.rear() : opening.front();
    if (opening instanceof conewise.simulator.box.Opening.PassiveRadiator each) {
      double fs = resonanceHz(each.massKg(), each.complianceMPerN());
      return new Opening.PassiveRadiator(
          each.name(),
          fs,
          turns(fs) * each.massKg() / each.lossNsPerM(),
          bulk * each.areaM2() * each.areaM2() * each.complianceMPerN(),
          behind,
          before);
    }
    double compliance = volumeM3(behind) / bulk;
    if (opening instanceof conewise.simulator.box.Opening.Vent each) {
      double tuning = resonanceHz(each.massKgPerM4(), compliance);
      double quality = turns(tuning) * each.massKgPerM4() / each.lossPaSPerM3();
      return new Opening.Vent(each.name(), tuning, quality, behind, before);
    }
    var leak = (conewise.simulator.box.Opening.Leak) opening;
    double quality = leak.resistancePaSPerM3() * turns(Space.LOSS_REFERENCE_HZ) * compliance;
    return new Opening.Leak(leak.name(), quality, behind, before);
  }

  private double volumeM3(String space) {
    return box.spaces().stream()
        .filter(each -> each.name().equals(space))
        .findFirst()
        .orElseThrow()
        .volumeM3();
  }

  private static double resonanceHz(double mass, double compliance) {
    return 1 / (2 * Math.PI * Math.sqrt(mass * compliance));
  }

  /** Qes by the force factors of all coils over all their resistance, one after the other. */
  private Driver driver(conewise.simulator.box.Driver driver) {
    double fs = resonanceHz(driver.massKg(), driver.complianceMPerN());
    double ohm = driver.coils().stream().mapToDouble(Coil::resistanceOhm).sum();
    double force = driver.coils().stream().mapToDouble(Coil::forceFactorTm).sum();
    double first = driver.coils().get(0).forceFactorTm();
    List<Driver.VoiceCoil> coils =
        driver.coils().stream()
            .map(coil -> new Driver.VoiceCoil(coil.resistanceOhm(), coil.forceFactorTm() / first))
            .toList();
    return new Driver(
        fs,
        turns(fs) * driver.massKg() / driver.lossNsPerM(),
        turns(fs) * driver.massKg() * ohm / (force * force),
        bulk * driver.areaM2() * driver.areaM2() * driver.complianceMPerN(),
        coils,
        inductance.apply(driver.inductance()),
        driver.coupling(),
        0,
        OptionalDouble.of(driver.areaM2()),
        0);
  }

  private Circuit circuit(Wiring wiring) {
    if (wiring instanceof Wiring.Series series) {
      return new Circuit.Series(series.parts().stream().map(this::circuit).toList());
    }
    if (wiring instanceof Wiring.Parallel parallel) {
      return new Circuit.Parallel(parallel.parts().stream().map(this::circuit).toList());
    }
    if (wiring instanceof Wiring.CoilLeads leads) {
      return switch (leads.state()) {
        case SOUND -> new Circuit.Coil(leads.driver(), leads.coil(), leads.reversed());
        case OPEN -> new Circuit.Gap();
        case SHORTED -> throw new IllegalArgumentException("no shorted coil is compared here");
      };
    }
    double ohm = ((Wiring.Resistance) wiring).ohm();
    return new Circuit.Resistance(Double.toString(ohm), ohm);
  }
}
