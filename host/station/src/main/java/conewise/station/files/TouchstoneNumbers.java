package conewise.station.files;

import org.apache.commons.math3.complex.Complex;

/** The complex numbers of a Touchstone file and what they say of an impedance. */
final class TouchstoneNumbers {

  private TouchstoneNumbers() {}

  /** The complex number that a pair of numbers stands for. */
  static Complex decode(TouchstoneOptions.Format format, double first, double second) {
    return switch (format) {
      case RI -> new Complex(first, second);
      case MA -> polar(first, second);
      case DB -> polar(Math.pow(10, first / 20), second);
    };
  }

  /**
   * The impedance of a one-port: R z for normalised impedance, R (1 + s)/(1 - s) for a reflection
   * (Kurokawa, IEEE Trans. MTT 13(2), 1965, for a real reference).
   *
   * @return not finite where the reflection is 1, which is an open circuit
   */
  static Complex impedance(TouchstoneOptions.Parameter parameter, Complex value, double refOhm) {
    return switch (parameter) {
      case Z -> value.multiply(refOhm);
      case S -> {
        double a = value.getReal();
        double b = value.getImaginary();
        double divisor = (1 - a) * (1 - a) + b * b;
        yield new Complex(
            refOhm * (((1 - a) * (1 + a) - b * b) / divisor), refOhm * (2 * b / divisor));
      }
    };
  }

  /**
   * The reflection of an impedance: (Z - R)/(Z + R). Z = -R, which reflects without bound, gives
   * NaN.
   */
  static Complex reflection(Complex impedance, double referenceOhm) {
    return impedance.subtract(referenceOhm).divide(impedance.add(referenceOhm));
  }

  /** Multiples of 90 degrees are exact, so that a pure resistance stays one. */
  private static Complex polar(double modulus, double degrees) {
    double turned = degrees % 360;
    if (turned % 90 != 0) {
      double radians = Math.toRadians(turned);
      return new Complex(modulus * Math.cos(radians), modulus * Math.sin(radians));
    }
    return switch ((int) (turned < 0 ? turned + 360 : turned)) {
      case 90 -> new Complex(0, modulus);
      case 180 -> new Complex(-modulus, 0);
      case 270 -> new Complex(0, -modulus);
      default -> new Complex(modulus, 0);
    };
  }
}
