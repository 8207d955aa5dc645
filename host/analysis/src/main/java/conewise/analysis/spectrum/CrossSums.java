package conewise.analysis.spectrum;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/** Sums of auto and cross powers of voltage and current at one frequency. */
final class CrossSums {

  private double currentPower;
  private double voltagePower;
  private double currentPowerSquared;
  private double crossReal;
  private double crossImaginary;

  /** Adds one pair of spectral values: |I|^2, |V|^2 and V I*. */
  void add(double vRe, double vIm, double iRe, double iIm) {
    double power = iRe * iRe + iIm * iIm;
    currentPower += power;
    voltagePower += vRe * vRe + vIm * vIm;
    currentPowerSquared += power * power;
    crossReal += vRe * iRe + vIm * iIm;
    crossImaginary += vIm * iRe - vRe * iIm;
  }

  double currentPower() {
    return currentPower;
  }

  /** How many of the pairs bear most of the current's power: 1 when a single one bears it all. */
  double participation() {
    return currentPowerSquared > 0 ? currentPower * currentPower / currentPowerSquared : 0;
  }

  /** The part of the voltage that the current explains, 0 to 1; 0 where there is none of either. */
  double coherence() {
    double both = currentPower * voltagePower;
    double cross = crossReal * crossReal + crossImaginary * crossImaginary;
    return both > 0 ? Math.min(1, cross / both) : 0;
  }

  /** Z = S_iv/S_ii (often called H1). Only where there is current. */
  Complex impedance() {
    return new Complex(crossReal / currentPower, crossImaginary / currentPower);
  }

  /**
   * The variance of each part of Z from noise on the voltage: |Z|^2 (1 - g)/(2 n g), g the
   * coherence (Bendat and Piersol, Random Data, table 9.6; from memory), with n - 1 for n since one
   * complex number was fitted.
   */
  double randomVariance(double averages) {
    double modulus = impedance().abs();
    double g = coherence();
    return modulus * modulus * (1 - g) / (2 * (averages - 1) * g);
  }

  /**
   * The point with its uncertainty. Noise on the current makes |Z| read low, by at most the part 1
   * - g; where the noise sits cannot be seen, so that bound enters along Z as a one-sided
   * rectangle.
   */
  ImpedancePoint point(double frequencyHz, double averages) {
    Complex z = impedance();
    double modulus = z.abs();
    double random = randomVariance(averages);
    double low = modulus * (1 - coherence()) / coherence();
    double along = low * low / 3;
    double c = z.getReal() / modulus;
    double s = z.getImaginary() / modulus;
    return new ImpedancePoint(
        frequencyHz,
        z.getReal(),
        z.getImaginary(),
        Optional.of(
            new ImpedanceUncertainty(
                random + along * c * c, random + along * s * s, along * c * s)));
  }
}
