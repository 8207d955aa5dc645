package conewise.analysis.parameter;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;

/**
 * A driver by mass, spring, loss and force factor, solved by its own closed form: Z = Re + K (j
 * w)^n + Bl^2 / (Rms + j w Mms + 1/(j w Cms) + S^2 Zbox). Nothing of it is shared with what it
 * tests.
 */
final class PhysicalDriver {
  static final double BULK = 1.204 * 343.2 * 343.2;

  final double re = 7;
  final double massKg = 0.044459;
  final double complianceMPerN = 1.18e-3;
  final double lossNsPerM = 1.85;
  final double forceFactorTm = 11.4;
  final double areaM2 = Math.PI * 0.12 * 0.12;
  final double lossyOhm = 6.89e-3;
  final double exponent = 0.7;

  double resonanceHz() {
    return 1 / (2 * Math.PI * Math.sqrt(massKg * complianceMPerN));
  }

  double equivalentVolumeM3() {
    return BULK * areaM2 * areaM2 * complianceMPerN;
  }

  double mechanicalQ() {
    return Math.sqrt(massKg / complianceMPerN) / lossNsPerM;
  }

  double electricalQ() {
    return Math.sqrt(massKg / complianceMPerN) * re / (forceFactorTm * forceFactorTm);
  }

  /** The impedance with a mass added, in a closed box of a volume (0 for free air). */
  Complex impedance(double hz, double addedKg, double boxM3) {
    if (hz == 0) {
      return new Complex(re);
    }
    double w = 2 * Math.PI * hz;
    Complex mechanical =
        new Complex(lossNsPerM, w * (massKg + addedKg) - 1 / (w * complianceMPerN));
    if (boxM3 > 0) {
      mechanical = mechanical.add(new Complex(0, -areaM2 * areaM2 * BULK / (w * boxM3)));
    }
    double modulus = lossyOhm * Math.pow(w, exponent);
    double angle = exponent * Math.PI / 2;
    return mechanical
        .reciprocal()
        .multiply(forceFactorTm * forceFactorTm)
        .add(re)
        .add(new Complex(modulus * Math.cos(angle), modulus * Math.sin(angle)));
  }

  ImpedanceCurve curve(double addedKg, double boxM3, double noise, Random random) {
    List<ImpedancePoint> points = new ArrayList<>();
    points.add(point(0, addedKg, boxM3, noise, random));
    for (double f = 8; f < 420; f *= 1.035) {
      points.add(point(f, addedKg, boxM3, noise, random));
    }
    return new ImpedanceCurve(points);
  }

  private ImpedancePoint point(double f, double addedKg, double boxM3, double noise, Random r) {
    Complex z = impedance(f, addedKg, boxM3);
    double sigma = noise * z.abs();
    ImpedanceUncertainty known =
        f == 0 ? ImpedanceUncertainty.ofResistance(sigma) : ImpedanceUncertainty.circular(sigma);
    return new ImpedancePoint(
        f,
        z.getReal() + sigma * r.nextGaussian(),
        f == 0 ? 0 : z.getImaginary() + sigma * r.nextGaussian(),
        Optional.of(known));
  }
}
