package conewise.analysis.model;

/** Complex numbers in two arrays. */
final class ComplexArray {
  final double[] re;
  final double[] im;

  ComplexArray(int size) {
    re = new double[size];
    im = new double[size];
  }

  void set(int at, double real, double imaginary) {
    re[at] = real;
    im[at] = imaginary;
  }

  /** Sets an entry to the reciprocal of a number; to 0 for an infinite one. */
  void setReciprocal(int at, double real, double imaginary) {
    double square = real * real + imaginary * imaginary;
    re[at] = Double.isInfinite(square) ? 0 : real / square;
    im[at] = Double.isInfinite(square) ? 0 : -imaginary / square;
  }
}
