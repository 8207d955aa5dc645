package conewise.analysis.model;

/** A symmetric matrix over the loops: the impedances that a set of like parts puts in them. */
final class LoopForm {
  private final double[][] entry;

  LoopForm(int loops) {
    entry = new double[loops][loops];
  }

  /** Adds a part through which a current runs, with its impedance. */
  void add(double impedance, LoopVector current) {
    for (int i = 0; i < entry.length; i++) {
      for (int j = 0; j < entry.length; j++) {
        entry[i][j] += impedance * current.at(i) * current.at(j);
      }
    }
  }

  double at(int i, int j) {
    return entry[i][j];
  }

  /** The real part of i M i, for complex loop currents i. */
  double real(ComplexArray currents) {
    double sum = 0;
    for (int i = 0; i < entry.length; i++) {
      for (int j = 0; j < entry.length; j++) {
        sum += entry[i][j] * (currents.re[i] * currents.re[j] - currents.im[i] * currents.im[j]);
      }
    }
    return sum;
  }

  /** The imaginary part of i M i. */
  double imaginary(ComplexArray currents) {
    double sum = 0;
    for (int i = 0; i < entry.length; i++) {
      for (int j = 0; j < entry.length; j++) {
        sum += entry[i][j] * 2 * currents.re[i] * currents.im[j];
      }
    }
    return sum;
  }
}
