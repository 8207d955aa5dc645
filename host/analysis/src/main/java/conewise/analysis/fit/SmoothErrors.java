package conewise.analysis.fit;

/**
 * Turns noise and the smooth part of what a model may be off into independent errors of variance 1.
 * The smooth part is a Markov process in the logarithm of frequency, so a Kalman filter along the
 * curve gives the innovations (R. E. Kalman, J. Basic Eng. 82, 1960; T. Kailath, IEEE Trans. Autom.
 * Control AC-13, 1968). Real and imaginary parts are independent and alike, and share one filter.
 */
final class SmoothErrors {
  /** The smooth part forgets itself over an octave. */
  static final double LENGTH = Math.log(2);

  private static final double LEAST_VARIANCE = 1e-12;

  private final int count;

  /** What remains of the state from one point to the next. */
  private final double[] memory;

  private final double[] gain;

  /** One over the standard deviation of each innovation. */
  private final double[] scale;

  private double logDeterminant;

  /**
   * The filter.
   *
   * @param logFrequency natural logarithms of the frequencies, rising
   * @param noise relative standard deviation of each point's own noise
   */
  SmoothErrors(double[] logFrequency, double[] noise, Discrepancy discrepancy) {
    count = logFrequency.length;
    memory = new double[count];
    gain = new double[count];
    scale = new double[count];
    double scattered = discrepancy.scattered() * discrepancy.scattered();
    double smooth = discrepancy.smooth() * discrepancy.smooth();
    double state = smooth;
    for (int i = 0; i < count; i++) {
      double variance = state + Math.max(LEAST_VARIANCE, noise[i] * noise[i] + scattered);
      scale[i] = 1 / Math.sqrt(variance);
      gain[i] = state / variance;
      logDeterminant += 2 * Math.log(variance);
      if (i + 1 < count) {
        memory[i] = Math.exp((logFrequency[i] - logFrequency[i + 1]) / LENGTH);
        double kept = memory[i] * memory[i];
        state = kept * (1 - gain[i]) * state + (1 - kept) * smooth;
      }
    }
  }

  /** The logarithm of the determinant of the covariance of all readings. */
  double logDeterminant() {
    return logDeterminant;
  }

  /** Whitens a column in place: real parts of all points, then imaginary parts. */
  void apply(double[] column) {
    double re = 0;
    double im = 0;
    for (int i = 0; i < count; i++) {
      double newRe = column[i] - re;
      double newIm = column[count + i] - im;
      column[i] = scale[i] * newRe;
      column[count + i] = scale[i] * newIm;
      re = memory[i] * (re + gain[i] * newRe);
      im = memory[i] * (im + gain[i] * newIm);
    }
  }
}
