package conewise.analysis.fit;

/**
 * Turns the errors along a curve into independent ones of variance 1. All that a model may be off
 * along frequency is a Markov process in the logarithm of frequency, so a Kalman filter along the
 * curve gives the innovations in a time that rises only with the number of points (R. E. Kalman, J.
 * Basic Eng. 82, 1960; innovations: T. Kailath, IEEE Trans. Autom. Control AC-13, 1968).
 *
 * <p>The state is three complex numbers: the smooth part (first order Gauss Markov), the
 * suspension's and the coil's wandering (Brownian, 0 at its pin: a Brownian bridge up to there, a
 * free motion beyond). Real and imaginary parts of each are independent and alike, so that one
 * complex filter serves both, and the variance of an innovation is a real number.
 */
final class Whitening {
  private static final double OCTAVE = Math.log(2);

  /** The smooth part forgets itself over an octave. */
  static final double LENGTH = OCTAVE;

  /** Logarithm of the frequency at which the coil is as its formula says. */
  static final double COIL_PIN = Math.log(200);

  private static final double LEAST_VARIANCE = 1e-12;
  private static final int STATES = 3;
  private static final int SMOOTH = 0;
  private static final int SPRING = 1;
  private static final int COIL = 2;

  private final int count;
  private final ModelDrift drift;

  /** What remains of each state from one point to the next, point by point. */
  private final double[] memory;

  /** What an innovation adds to each state, point by point. */
  private final double[] gainRe;

  private final double[] gainIm;

  /** One over the standard deviation of each innovation. */
  private final double[] scale;

  private double logDeterminant;

  /**
   * The filter.
   *
   * @param logFrequency natural logarithms of the frequencies, rising
   * @param noise relative standard deviation of each point's own noise
   */
  Whitening(double[] logFrequency, double[] noise, ModelDrift drift, Discrepancy discrepancy) {
    count = logFrequency.length;
    this.drift = drift;
    memory = new double[STATES * count];
    gainRe = new double[STATES * count];
    gainIm = new double[STATES * count];
    scale = new double[count];
    Covariance covariance = new Covariance(logFrequency, discrepancy);
    double scattered = discrepancy.scattered() * discrepancy.scattered();
    for (int i = 0; i < count; i++) {
      covariance.read(i, Math.max(LEAST_VARIANCE, noise[i] * noise[i] + scattered));
      if (i + 1 < count) {
        covariance.step(i, logFrequency[i], logFrequency[i + 1]);
      }
    }
  }

  /** How far a wandering part has come from its pin: its variance grows by so many octaves. */
  static double octaves(double logFrequency, double logPin) {
    return Math.abs(logFrequency - logPin) / OCTAVE;
  }

  /** The states' covariance on its way along the curve; writes the filter's numbers. */
  private final class Covariance {
    private final double smooth;

    /** Variances that the wandering parts gain over an e-fold of frequency, and their pins. */
    private final double[] rate;

    private final double[] pin = {0, drift.springPin, COIL_PIN};
    private final double[][] re = new double[STATES][STATES];
    private final double[][] im = new double[STATES][STATES];
    private final double[] seenRe = new double[STATES];
    private final double[] seenIm = new double[STATES];

    Covariance(double[] logFrequency, Discrepancy d) {
      smooth = d.smooth() * d.smooth();
      rate =
          new double[] {0, d.suspension() * d.suspension() / OCTAVE, d.coil() * d.coil() / OCTAVE};
      re[SMOOTH][SMOOTH] = smooth;
      for (int k = SPRING; k < STATES && count > 0; k++) {
        re[k][k] = rate[k] * Math.abs(logFrequency[0] - pin[k]);
      }
    }

    /** Takes in the reading of a point: the smooth part, and the others as the curve shows them. */
    void read(int i, double noise) {
      double variance = noise + look(i);
      scale[i] = 1 / Math.sqrt(variance);
      logDeterminant += 2 * Math.log(variance);
      for (int k = 0; k < STATES; k++) {
        double gRe = seenRe[k] / variance;
        double gIm = seenIm[k] / variance;
        gainRe[STATES * i + k] = gRe;
        gainIm[STATES * i + k] = gIm;
        for (int l = 0; l < STATES; l++) {
          re[k][l] -= gRe * seenRe[l] + gIm * seenIm[l];
          im[k][l] -= gIm * seenRe[l] - gRe * seenIm[l];
        }
      }
    }

    /** The states' covariances with what a point shows of them; returns the latter's variance. */
    private double look(int i) {
      double sRe = drift.springRe[i];
      double sIm = drift.springIm[i];
      double cRe = drift.coilRe[i];
      double cIm = drift.coilIm[i];
      for (int k = 0; k < STATES; k++) {
        double[] r = re[k];
        double[] j = im[k];
        seenRe[k] = r[SMOOTH] + r[SPRING] * sRe + j[SPRING] * sIm + r[COIL] * cRe + j[COIL] * cIm;
        seenIm[k] = j[SMOOTH] + j[SPRING] * sRe - r[SPRING] * sIm + j[COIL] * cRe - r[COIL] * cIm;
      }
      double spring = sRe * seenRe[SPRING] - sIm * seenIm[SPRING];
      double coil = cRe * seenRe[COIL] - cIm * seenIm[COIL];
      return seenRe[SMOOTH] + spring + coil;
    }

    /** Goes from one point to the next. */
    void step(int i, double from, double to) {
      int first = STATES * i;
      double kept = Math.exp((from - to) / LENGTH);
      memory[first + SMOOTH] = kept;
      for (int k = SPRING; k < STATES; k++) {
        memory[first + k] = kept(pin[k], from, to);
      }
      for (int k = 0; k < STATES; k++) {
        for (int l = 0; l < STATES; l++) {
          double both = memory[first + k] * memory[first + l];
          re[k][l] *= both;
          im[k][l] *= both;
        }
      }
      re[SMOOTH][SMOOTH] += smooth * (1 - kept * kept);
      for (int k = SPRING; k < STATES; k++) {
        re[k][k] += rate[k] * gained(pin[k], from, to);
      }
    }
  }

  /** Towards its pin a wandering part shrinks as what is left of the way; beyond, it stays. */
  private static double kept(double pin, double from, double to) {
    return from >= pin ? 1 : Math.max(0, pin - to) / (pin - from);
  }

  /** The variance that it gains on the way, over its rate. */
  private static double gained(double pin, double from, double to) {
    return to > pin ? to - Math.max(from, pin) : (to - from) * kept(pin, from, to);
  }

  /** The logarithm of the determinant of the covariance of all readings. */
  double logDeterminant() {
    return logDeterminant;
  }

  /** Whitens a column in place: real parts of all points, then imaginary parts. */
  void apply(double[] column) {
    double re0 = 0;
    double im0 = 0;
    double re1 = 0;
    double im1 = 0;
    double re2 = 0;
    double im2 = 0;
    for (int i = 0, k = 0; i < count; i++, k += STATES) {
      double sRe = drift.springRe[i];
      double sIm = drift.springIm[i];
      double cRe = drift.coilRe[i];
      double cIm = drift.coilIm[i];
      double re = column[i] - re0 - (sRe * re1 - sIm * im1) - (cRe * re2 - cIm * im2);
      double im = column[count + i] - im0 - (sRe * im1 + sIm * re1) - (cRe * im2 + cIm * re2);
      column[i] = scale[i] * re;
      column[count + i] = scale[i] * im;
      re0 = memory[k] * (re0 + gainRe[k] * re - gainIm[k] * im);
      im0 = memory[k] * (im0 + gainRe[k] * im + gainIm[k] * re);
      re1 = memory[k + 1] * (re1 + gainRe[k + 1] * re - gainIm[k + 1] * im);
      im1 = memory[k + 1] * (im1 + gainRe[k + 1] * im + gainIm[k + 1] * re);
      re2 = memory[k + 2] * (re2 + gainRe[k + 2] * re - gainIm[k + 2] * im);
      im2 = memory[k + 2] * (im2 + gainRe[k + 2] * im + gainIm[k + 2] * re);
    }
  }
}
