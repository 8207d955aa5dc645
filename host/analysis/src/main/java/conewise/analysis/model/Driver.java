package conewise.analysis.model;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A driver by its small-signal parameters (Small, J. Audio Eng. Soc. 20, 1972).
 *
 * @param resonanceHz fs, in free air
 * @param mechanicalQ Qms of the loss that goes with speed; creep adds one of its own: see {@link
 *     #mechanicalQOf}
 * @param electricalQ Qes with every coil in use and no resistance added
 * @param equivalentVolumeM3 Vas in cubic metres
 * @param coils its voice coils, at least one
 * @param inductance that of a coil of relative turns 1
 * @param coupling share of the inductance that its coils have in common, 0 to 1
 * @param creep how much the compliance falls for each decade of frequency, 0 for none, below 0.5:
 *     C(f) is proportional to 1 - creep log10(j f / fs), after Knudsen and Jensen, J. Audio Eng.
 *     Soc. 41, 1993, so scaled that fs stays where the reactance passes zero
 * @param areaM2 area of the cone, when it is known; only masses and force factors need it
 * @param addedMassKg a mass stuck on the cone, 0 for none; needs the area
 */
public record Driver(
    double resonanceHz,
    double mechanicalQ,
    double electricalQ,
    double equivalentVolumeM3,
    List<VoiceCoil> coils,
    Inductance inductance,
    double coupling,
    double creep,
    OptionalDouble areaM2,
    double addedMassKg) {

  /**
   * A voice coil.
   *
   * @param resistanceOhm its DC resistance
   * @param turns its force factor, and the root of its inductance, over those of the others
   */
  public record VoiceCoil(double resistanceOhm, double turns) {
    public VoiceCoil {
      Require.positive("the resistance of a voice coil", resistanceOhm, "ohm");
      Require.positive("the relative turns of a voice coil", turns, "");
    }

    public VoiceCoil(double resistanceOhm) {
      this(resistanceOhm, 1);
    }
  }

  public Driver {
    Require.positive("fs of a driver", resonanceHz, "Hz");
    Require.positive("Qms of a driver", mechanicalQ, "");
    Require.positive("Qes of a driver", electricalQ, "");
    Require.positive("Vas of a driver", equivalentVolumeM3, "m3");
    coils = List.copyOf(coils);
    if (coils.isEmpty()) {
      throw new IllegalArgumentException("a driver has at least 1 voice coil; it had 0");
    }
    Require.within("the coupling of a driver's coils", coupling, 0, 1);
    Require.within("the creep of a driver", creep, 0, 0.5);
    areaM2.ifPresent(area -> Require.positive("the area of a driver", area, "m2"));
    Require.within("the mass added to a cone in kg", addedMassKg, 0, 10);
    if (addedMassKg > 0 && areaM2.isEmpty()) {
      throw new IllegalArgumentException(
          "a mass of " + addedMassKg + " kg was added to a cone whose area is not stated");
    }
  }

  /** A driver of like coils without inductance, creep or added mass. */
  public static Driver of(
      double resonanceHz,
      double mechanicalQ,
      double electricalQ,
      double equivalentVolumeM3,
      int coils,
      double coilOhm) {
    return new Driver(
        resonanceHz,
        mechanicalQ,
        electricalQ,
        equivalentVolumeM3,
        java.util.Collections.nCopies(coils, new VoiceCoil(coilOhm)),
        Inductance.NONE,
        0,
        0,
        OptionalDouble.empty(),
        0);
  }

  /**
   * The same driver with another inductance of each coil, and the share of it that its coils have
   * in common.
   */
  public Driver withInductance(Inductance other, double otherCoupling) {
    return changed(electricalQ, coils, other, otherCoupling, creep, areaM2, addedMassKg);
  }

  /** The same driver with another Qes and Vas: a motor that is weak, a suspension that is stiff. */
  public Driver withMotor(double otherElectricalQ, double otherEquivalentVolumeM3) {
    return new Driver(
        resonanceHz,
        mechanicalQ,
        otherElectricalQ,
        otherEquivalentVolumeM3,
        coils,
        inductance,
        coupling,
        creep,
        areaM2,
        addedMassKg);
  }

  /**
   * The same driver with another creep, by which its compliance grows towards low frequencies; 0
   * for none.
   */
  public Driver withCreep(double other) {
    return changed(electricalQ, coils, inductance, coupling, other, areaM2, addedMassKg);
  }

  /** The same driver with its cone's area known, in square metres. */
  public Driver withArea(double squareMetres) {
    OptionalDouble area = OptionalDouble.of(squareMetres);
    return changed(electricalQ, coils, inductance, coupling, creep, area, addedMassKg);
  }

  /** The same driver with so much more mass on its cone, in kilograms. */
  public Driver withAddedMass(double kilogram) {
    return changed(electricalQ, coils, inductance, coupling, creep, areaM2, kilogram);
  }

  /** The same driver with its coils at a temperature, when the values given are those at 20 C. */
  public Driver withCoilsAt(double celsius) {
    double factor = Copper.factorAt(celsius);
    List<VoiceCoil> warm =
        coils.stream()
            .map(coil -> new VoiceCoil(coil.resistanceOhm() * factor, coil.turns()))
            .toList();
    return changed(electricalQ * factor, warm, inductance, coupling, creep, areaM2, addedMassKg);
  }

  private Driver changed(
      double otherElectricalQ,
      List<VoiceCoil> otherCoils,
      Inductance otherInductance,
      double otherCoupling,
      double otherCreep,
      OptionalDouble otherArea,
      double otherAddedMassKg) {
    return new Driver(
        resonanceHz,
        mechanicalQ,
        otherElectricalQ,
        equivalentVolumeM3,
        otherCoils,
        otherInductance,
        otherCoupling,
        otherCreep,
        otherArea,
        otherAddedMassKg);
  }

  /**
   * The mechanical Q at fs of both losses together: 1/Q = 1/Qms + creep (pi / 2) / ln 10.
   *
   * @param mechanicalQ of the loss that goes with speed
   */
  public static double mechanicalQOf(double mechanicalQ, double creep) {
    return 1 / (1 / mechanicalQ - creep * PartValues.CREEP_SLOPE_IM);
  }

  /** Qts: mechanical Q of all losses beside Qes. */
  public double totalQ() {
    return 1 / (1 / mechanicalQOf(mechanicalQ, creep) + 1 / electricalQ);
  }

  /** The mean resistance of its coils in ohm. */
  public double meanCoilOhm() {
    return coils.stream().mapToDouble(VoiceCoil::resistanceOhm).average().orElseThrow();
  }

  double turnsOfAll() {
    return coils.stream().mapToDouble(VoiceCoil::turns).sum();
  }
}
