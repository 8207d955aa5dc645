package conewise.analysis.feature;

import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * A resistance, a lossy coil and a sum of damped resonances (Foster, Bell Syst. Tech. J. 3, 1924,
 * with losses; the coil after Leach, J. Audio Eng. Soc. 50(6), 2002):
 *
 * <pre>Z(s) = R + R exp(kappa) (s / sTop)^n + sum over k of (r_k s + b_k p_k) / (s^2 + a_k s + b_k)
 * </pre>
 *
 * with s = j f / unit and the sum of all p_k zero, so that Z(0) = R. One resonance is a sealed box
 * exactly, two are a vented one exactly, with any losses of driver, box and vent.
 *
 * <p>Parameters in order: R, kappa, nu (n is a logistic function of nu), then r, ln a, ln b of each
 * resonance, then p of all resonances but the last.
 */
record ResonanceSum(int resonances, double unitHz, double topHz) {
  private static final int COMMON = 3;
  private static final double LEAST_EXPONENT = 0.45;
  private static final double EXPONENT_SPAN = 0.55;

  int size() {
    return COMMON + 3 * resonances + Math.max(0, resonances - 1);
  }

  int resonanceAt(int k) {
    return COMMON + 3 * k;
  }

  private int staticAt(int k) {
    return COMMON + 3 * resonances + k;
  }

  /** The share of resonance k in the resistance at rest; all shares add up to 0. */
  double staticPart(double[] parameters, int k) {
    if (k < resonances - 1) {
      return parameters[staticAt(k)];
    }
    double rest = 0;
    for (int i = 0; i < resonances - 1; i++) {
      rest -= parameters[staticAt(i)];
    }
    return rest;
  }

  /** The coil's exponent n, from 0.45 to 1, of its free parameter. */
  static double exponent(double nu) {
    return LEAST_EXPONENT + EXPONENT_SPAN / (1 + Math.exp(-nu));
  }

  private Complex coil(double[] parameters, double frequencyHz) {
    if (frequencyHz == 0) {
      return Complex.ZERO;
    }
    double n = exponent(parameters[2]);
    double size = parameters[0] * Math.exp(parameters[1]) * Math.pow(frequencyHz / topHz, n);
    return new Complex(size * Math.cos(n * Math.PI / 2), size * Math.sin(n * Math.PI / 2));
  }

  /** The real part of the coil's lossy inductance, in ohm. */
  double coilResistanceOhm(double[] parameters, double frequencyHz) {
    return coil(parameters, frequencyHz).getReal();
  }

  /** The impedance in ohm at a frequency from 0 Hz. */
  Complex impedance(double[] parameters, double frequencyHz) {
    Complex sum = coil(parameters, frequencyHz).add(parameters[0]);
    Complex s = new Complex(0, frequencyHz / unitHz);
    for (int k = 0; k < resonances; k++) {
      double b = Math.exp(parameters[resonanceAt(k) + 2]);
      Complex numerator = s.multiply(parameters[resonanceAt(k)]).add(b * staticPart(parameters, k));
      sum = sum.add(numerator.divide(denominator(parameters, k, s)));
    }
    return sum;
  }

  private Complex denominator(double[] parameters, int k, Complex s) {
    double a = Math.exp(parameters[resonanceAt(k) + 1]);
    double b = Math.exp(parameters[resonanceAt(k) + 2]);
    return s.multiply(s).add(s.multiply(a)).add(b);
  }

  /** Writes the derivatives of Z with respect to each parameter at one frequency. */
  void derivatives(double[] parameters, double frequencyHz, Complex[] into) {
    Complex s = new Complex(0, frequencyHz / unitHz);
    Complex coil = coil(parameters, frequencyHz);
    double n = exponent(parameters[2]);
    double share = (n - LEAST_EXPONENT) / EXPONENT_SPAN;
    double slope = EXPONENT_SPAN * share * (1 - share);
    into[0] = coil.divide(parameters[0]).add(1);
    into[1] = coil;
    into[2] =
        frequencyHz == 0
            ? Complex.ZERO
            : coil.multiply(new Complex(Math.log(frequencyHz / topHz), Math.PI / 2))
                .multiply(slope);
    Complex lastShare = Complex.ZERO;
    for (int k = resonances - 1; k >= 0; k--) {
      double a = Math.exp(parameters[resonanceAt(k) + 1]);
      double b = Math.exp(parameters[resonanceAt(k) + 2]);
      double p = staticPart(parameters, k);
      Complex inverse = denominator(parameters, k, s).reciprocal();
      Complex part = s.multiply(parameters[resonanceAt(k)]).add(b * p).multiply(inverse);
      into[resonanceAt(k)] = s.multiply(inverse);
      into[resonanceAt(k) + 1] = part.multiply(inverse).multiply(s).multiply(-a);
      into[resonanceAt(k) + 2] =
          inverse.multiply(b * p).subtract(part.multiply(inverse).multiply(b));
      if (k == resonances - 1) {
        lastShare = inverse.multiply(b);
      } else {
        into[staticAt(k)] = inverse.multiply(b).subtract(lastShare);
      }
    }
  }

  /**
   * The zeros of the sum of resonances: the frequencies at which a box lets the cones move least.
   * For two resonances there is one, and for a vented box of equal drivers it is the tuning times
   * sqrt(1 + 1/(Ql Qp)), Ql and Qp the box's leak and vent quality (own derivation; under 0.5 % for
   * 10 and 10).
   *
   * @return frequencies in hertz, rising; empty for fewer than two resonances
   */
  double[] zerosHz(double[] parameters) {
    if (resonances < 2) {
      return new double[0];
    }
    return PolynomialZeros.resonantHz(numerator(parameters), unitHz);
  }

  /** Numerator over s of the sum, lowest power first. */
  private double[] numerator(double[] parameters) {
    double[] total = new double[2 * resonances];
    for (int k = 0; k < resonances; k++) {
      double b = Math.exp(parameters[resonanceAt(k) + 2]);
      double[] product = {b * staticPart(parameters, k), parameters[resonanceAt(k)]};
      for (int other = 0; other < resonances; other++) {
        if (other != k) {
          product =
              PolynomialZeros.product(
                  product,
                  new double[] {
                    Math.exp(parameters[resonanceAt(other) + 2]),
                    Math.exp(parameters[resonanceAt(other) + 1]),
                    1
                  });
        }
      }
      for (int i = 0; i < product.length; i++) {
        total[i] += product[i];
      }
    }
    return java.util.Arrays.copyOfRange(total, 1, total.length);
  }

  /** Weighted derivatives of real and imaginary parts, two rows a frequency. */
  RealMatrix jacobian(double[] parameters, double[] frequenciesHz, double[] weights, int rows) {
    RealMatrix jacobian = new Array2DRowRealMatrix(rows, size());
    Complex[] row = new Complex[size()];
    for (int i = 0; i < frequenciesHz.length; i++) {
      derivatives(parameters, frequenciesHz[i], row);
      for (int j = 0; j < size(); j++) {
        jacobian.setEntry(2 * i, j, row[j].getReal() * weights[i]);
        jacobian.setEntry(2 * i + 1, j, row[j].getImaginary() * weights[i]);
      }
    }
    return jacobian;
  }
}
