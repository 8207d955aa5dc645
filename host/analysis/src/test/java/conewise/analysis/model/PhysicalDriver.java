package conewise.analysis.model;

import conewise.analysis.model.Driver.VoiceCoil;
import java.util.Collections;
import java.util.OptionalDouble;
import org.apache.commons.math3.complex.Complex;

/**
 * A driver by mass, compliance, loss, area, and the resistance and force factor of each of its like
 * coils: what closed forms and circuit solvers are given, apart from the model's parameters.
 */
record PhysicalDriver(
    double massKg,
    double complianceMPerN,
    double lossNsPerM,
    double areaM2,
    int coils,
    double coilOhm,
    double forceFactorTm) {

  /** fs = 1 / (2 pi sqrt(M C)). */
  double resonanceHz() {
    return 1 / (2 * Math.PI * Math.sqrt(massKg * complianceMPerN));
  }

  /** Qms = 2 pi fs M / R. */
  double mechanicalQ() {
    return 2 * Math.PI * resonanceHz() * massKg / lossNsPerM;
  }

  /** Qes = 2 pi fs M / (Bl^2 / Re), each coil adding its Bl^2 / Re. */
  double electricalQ() {
    return 2 * Math.PI * resonanceHz() * massKg * coilOhm / (coils * forceFactorTm * forceFactorTm);
  }

  /** Vas = density c^2 S^2 C (all four: R. H. Small, J. Audio Eng. Soc. 20, 1972; from memory). */
  double equivalentVolumeM3(double density, double sound) {
    return density * sound * sound * areaM2 * areaM2 * complianceMPerN;
  }

  /** The same driver as the model has it, in air of 1.204 kg/m3 and 343.2 m/s. */
  Driver parameters() {
    return parameters(1.204, 343.2);
  }

  Driver parameters(double density, double sound) {
    return new Driver(
        resonanceHz(),
        mechanicalQ(),
        electricalQ(),
        equivalentVolumeM3(density, sound),
        Collections.nCopies(coils, new VoiceCoil(coilOhm)),
        Inductance.NONE,
        0,
        0,
        OptionalDouble.of(areaM2),
        0);
  }

  /** Mechanical impedance: loss, mass and compliance in series, and a further load. */
  Complex mechanical(double hz, Complex load) {
    double w = 2 * Math.PI * hz;
    return new Complex(lossNsPerM, w * massKg - 1 / (w * complianceMPerN)).add(load);
  }

  /** Electrical impedance of one coil: Re + Bl^2 / Zm. */
  Complex oneCoil(double hz, Complex load) {
    return mechanical(hz, load).reciprocal().multiply(forceFactorTm * forceFactorTm).add(coilOhm);
  }
}
