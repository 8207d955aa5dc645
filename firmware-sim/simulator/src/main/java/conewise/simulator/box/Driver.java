package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

import java.util.List;

/**
 * A driver: a moving piston with one or more voice coils.
 *
 * @param massKg moving mass with its load of air
 * @param complianceMPerN compliance of the suspension
 * @param lossNsPerM mechanical loss
 * @param areaM2 area of the piston
 * @param coils its voice coils, 1 to 4
 * @param inductance inductance of a coil of relative turns 1
 * @param coupling share of the inductance that the coils have in common, 0 to 1
 */
public record Driver(
    double massKg,
    double complianceMPerN,
    double lossNsPerM,
    double areaM2,
    List<Coil> coils,
    Inductance inductance,
    double coupling) {

  /** Checks the values. */
  public Driver {
    require("moving mass of a driver", massKg, 1e-5, 10, "kg");
    require("compliance of a driver", complianceMPerN, 1e-7, 1, "m/N");
    require("mechanical loss of a driver", lossNsPerM, 0, 1000, "N s/m");
    require("area of a driver", areaM2, 1e-6, 2, "m2");
    coils = List.copyOf(coils);
    require("number of voice coils of a driver", coils.size(), 1, 4, "coils");
    require("coupling of the coils of a driver", coupling, 0, 1, "");
  }

  /**
   * What the usual parameters of a driver say (Small, J. Audio Eng. Soc. 20 (1972), 383): Vas =
   * density c^2 S^2 Cms, fs = 1 / (2 pi sqrt(Mms Cms)), Qms = 2 pi fs Mms / Rms, Qes = 2 pi fs Mms
   * / sum(Bl^2 / Re) over its coils, taken as alike.
   *
   * @param coilOhm DC resistance of one coil
   * @param coils number of coils; Qes is with all of them in use
   */
  public static Driver ofParameters(
      Air air,
      double fsHz,
      double qms,
      double qes,
      double vasLitre,
      double areaM2,
      double coilOhm,
      int coils) {
    require("resonance of a driver", fsHz, 1, 2000, "Hz");
    require("Qms of a driver", qms, 0.1, 100, "");
    require("Qes of a driver", qes, 0.05, 100, "");
    require("Vas of a driver", vasLitre, 0.01, 10_000, "litre");
    require("area of a driver", areaM2, 1e-6, 2, "m2");
    require("number of voice coils of a driver", coils, 1, 4, "coils");
    double w = 2 * Math.PI * fsHz;
    double compliance = vasLitre / 1000 / (air.bulkModulusPa() * areaM2 * areaM2);
    double mass = 1 / (w * w * compliance);
    double forceFactor = Math.sqrt(w * mass * coilOhm / (coils * qes));
    return new Driver(
        mass,
        compliance,
        w * mass / qms,
        areaM2,
        java.util.Collections.nCopies(coils, new Coil(coilOhm, forceFactor)),
        Inductance.NONE,
        0);
  }

  /** The same driver with an inductance in each coil, shared between coils by the coupling. */
  public Driver with(Inductance other, double coupling) {
    return new Driver(massKg, complianceMPerN, lossNsPerM, areaM2, coils, other, coupling);
  }

  /** The same driver with a mass stuck on its cone. */
  public Driver withAddedMass(double addedKg) {
    return new Driver(
        massKg + addedKg, complianceMPerN, lossNsPerM, areaM2, coils, inductance, coupling);
  }
}
