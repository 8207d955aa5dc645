package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;

/**
 * A driver's parameters as functions of fitted quantities (Small, J. Audio Eng. Soc. 20, 1972). The
 * mechanical ones need the area of the cone.
 */
final class DriverFunctions {
  private static final double TURN = 2 * Math.PI;

  private final String name;
  private final int coils;
  private final boolean creeps;
  private final double bulkModulusPa;
  private final double areaM2;

  /** The area is used where the fit has none of its own. */
  DriverFunctions(String name, Driver driver, double bulkModulusPa, double areaM2) {
    this.name = name;
    coils = driver.coils().size();
    creeps = driver.creep() > 0;
    this.bulkModulusPa = bulkModulusPa;
    this.areaM2 = areaM2;
  }

  private double of(Values values, Kind kind) {
    return values.of(new Quantity(name, kind));
  }

  double resistance(Values v) {
    return coils * of(v, Kind.COIL_RESISTANCE);
  }

  double resonance(Values v) {
    return of(v, Kind.RESONANCE);
  }

  double electricalQ(Values v) {
    return of(v, Kind.ELECTRICAL_Q);
  }

  double mechanicalQ(Values v) {
    return Driver.mechanicalQOf(of(v, Kind.MECHANICAL_Q), creeps ? of(v, Kind.CREEP) : 0);
  }

  double totalQ(Values v) {
    return 1 / (1 / mechanicalQ(v) + 1 / electricalQ(v));
  }

  /** The suspension's stiffness at a frequency over that at fs: more than 1 above fs, by creep. */
  double stiffnessAt(Values v, double hz) {
    return creep(v, hz)[0];
  }

  /**
   * Losses at a frequency over the cone's kinetic energy: 1/Qts at fs. Those of motor and speed
   * fall with frequency, those of creep with its square.
   */
  double lossAt(Values v, double hz) {
    double ratio = resonance(v) / hz;
    double bySpeed = 1 / of(v, Kind.MECHANICAL_Q) + 1 / electricalQ(v);
    return bySpeed * ratio + creep(v, hz)[1] * ratio * ratio;
  }

  /** Real and imaginary part of the stiffness at a frequency, over the real part at fs. */
  private double[] creep(Values v, double hz) {
    double creep = creeps ? of(v, Kind.CREEP) : 0;
    double real = 1 - creep * Math.log10(hz / resonance(v));
    double imaginary = creep * Math.PI / 2 / Math.log(10);
    double factor = (1 + imaginary * imaginary) / (real * real + imaginary * imaginary);
    return new double[] {real * factor, imaginary * factor};
  }

  double equivalentVolume(Values v) {
    return of(v, Kind.EQUIVALENT_VOLUME);
  }

  /** Of all coils in series, the turns of like coils adding up when they are coupled. */
  private double coilModulus(Values v) {
    double coupling = coils > 1 ? of(v, Kind.COUPLING) : 0;
    return coils * (1 + (coils - 1) * coupling);
  }

  double coilInductance(Values v) {
    double w = TURN * DriverFigures.COIL_REFERENCE_HZ;
    double n = of(v, Kind.LOSSY_EXPONENT);
    double lossy = of(v, Kind.LOSSY_INDUCTANCE) * Math.pow(w, n) * Math.sin(n * Math.PI / 2) / w;
    return coilModulus(v) * (of(v, Kind.INDUCTANCE) + lossy);
  }

  double coilLoss(Values v) {
    double w = TURN * DriverFigures.COIL_REFERENCE_HZ;
    double n = of(v, Kind.LOSSY_EXPONENT);
    return coilModulus(v)
        * of(v, Kind.LOSSY_INDUCTANCE)
        * Math.pow(w, n)
        * Math.cos(n * Math.PI / 2);
  }

  double area(Values v) {
    return of(v, Kind.AREA);
  }

  /** Mms = (area / (2 pi fs))^2 rho c^2 / Vas, with the area that the fit was given or found. */
  double movingMass(Values v, boolean fittedArea) {
    double area = fittedArea ? area(v) : areaM2;
    return Math.pow(area / (TURN * resonance(v)), 2) * bulkModulusPa / equivalentVolume(v);
  }

  double compliance(Values v, double massKg) {
    return 1 / (Math.pow(TURN * resonance(v), 2) * massKg);
  }

  double mechanicalLoss(Values v, double massKg) {
    return TURN * resonance(v) * massKg / mechanicalQ(v);
  }

  double forceFactor(Values v, double massKg) {
    return Math.sqrt(TURN * resonance(v) * massKg * resistance(v) / electricalQ(v));
  }
}
