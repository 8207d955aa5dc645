package conewise.analysis.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Turns the errors along a curve into independent ones of variance 1. All that a model may be off
 * along frequency is a Markov process in the logarithm of frequency, so a Kalman filter along the
 * curve gives the innovations in a time that rises only with the number of points (R. E. Kalman, J.
 * Basic Eng. 82, 1960; innovations: T. Kailath, IEEE Trans. Autom. Control AC-13, 1968).
 *
 * <p>The state is six numbers, real and imaginary part of each: the smooth part (first order Gauss
 * Markov), the suspension's and the coil's wandering (Brownian, pinned to 0 at one frequency by a
 * reading of 0 there). Each point gives two readings, the real and the imaginary part.
 */
final class Whitening {
  /** Rows that the pins add: two for the suspension, two for the coil. */
  static final int PINS = 4;

  private static final double OCTAVE = Math.log(2);

  /** The smooth part forgets itself over an octave. */
  static final double LENGTH = OCTAVE;

  /** Brownian parts start so many octaves' worth off; the pin settles them. */
  private static final double START_OCTAVES = 1e5;

  /** Logarithm of the frequency at which the coil is as its formula says. */
  static final double COIL_PIN = Math.log(200);

  private static final double LEAST_VARIANCE = 1e-12;
  private static final int STATES = 6;

  /** A reading: two rows of a column, how they see the state, and the filter's gain. */
  private static final class Reading {
    final double logFrequency;
    final int first;
    final int second;
    final double[][] sees = new double[2][STATES];
    final double[][] gain = new double[STATES][2];

    /** Innovations to independent ones: lower triangle of the inverse Cholesky factor. */
    double scale11;

    double scale21;
    double scale22;

    /** What remains of the smooth part until the next reading. */
    double memory = 1;

    Reading(double logFrequency, int first, int second) {
      this.logFrequency = logFrequency;
      this.first = first;
      this.second = second;
    }
  }

  private final List<Reading> readings = new ArrayList<>();
  private double logDeterminant;

  /**
   * The filter.
   *
   * @param logFrequency natural logarithms of the frequencies, rising
   * @param noise relative standard deviation of each point's own noise
   */
  Whitening(double[] logFrequency, double[] noise, ModelDrift drift, Discrepancy discrepancy) {
    int count = logFrequency.length;
    for (int i = 0; i < count; i++) {
      Reading reading = new Reading(logFrequency[i], i, count + i);
      reading.sees[0] =
          new double[] {
            1, 0, drift.springRe[i], -drift.springIm[i], drift.coilRe[i], -drift.coilIm[i]
          };
      reading.sees[1] =
          new double[] {
            0, 1, drift.springIm[i], drift.springRe[i], drift.coilIm[i], drift.coilRe[i]
          };
      readings.add(reading);
    }
    double[] variance = new double[count];
    for (int i = 0; i < count; i++) {
      variance[i] = noise[i] * noise[i] + discrepancy.scattered() * discrepancy.scattered();
    }
    if (discrepancy.suspension() > 0) {
      pin(drift.springPin, 2, 2 * count);
    }
    if (discrepancy.coil() > 0) {
      pin(COIL_PIN, 4, 2 * count + 2);
    }
    readings.sort(Comparator.comparingDouble(each -> each.logFrequency));
    run(variance, discrepancy);
  }

  /** How far a wandering part has come from its pin: its variance grows by so many octaves. */
  static double octaves(double logFrequency, double logPin) {
    return Math.abs(logFrequency - logPin) / OCTAVE;
  }

  private void pin(double logFrequency, int state, int row) {
    Reading pin = new Reading(logFrequency, row, row + 1);
    pin.sees[0][state] = 1;
    pin.sees[1][state + 1] = 1;
    readings.add(pin);
  }

  private void run(double[] variance, Discrepancy discrepancy) {
    double[] rate = new double[STATES];
    double smooth = discrepancy.smooth() * discrepancy.smooth();
    rate[2] = rate[3] = discrepancy.suspension() * discrepancy.suspension() / OCTAVE;
    rate[4] = rate[5] = discrepancy.coil() * discrepancy.coil() / OCTAVE;
    double[][] p = new double[STATES][STATES];
    p[0][0] = p[1][1] = smooth;
    for (int k = 2; k < STATES; k++) {
      p[k][k] = rate[k] * OCTAVE * START_OCTAVES;
    }
    logDeterminant = -logDeterminantOfPins(p, rate, variance.length);
    for (int i = 0; i < readings.size(); i++) {
      Reading reading = readings.get(i);
      update(p, reading, reading.first < variance.length ? variance[reading.first] : 0);
      if (i + 1 < readings.size()) {
        double step = readings.get(i + 1).logFrequency - reading.logFrequency;
        reading.memory = Math.exp(-step / LENGTH);
        predict(p, reading.memory, smooth, rate, step);
      }
    }
  }

  /** The pins are no measurements: what they would add to the determinant by themselves. */
  private double logDeterminantOfPins(double[][] start, double[] rate, int points) {
    double sum = 0;
    for (Reading reading : readings) {
      if (reading.first >= 2 * points) {
        int state = reading.sees[0][2] == 1 ? 2 : 4;
        double apart = reading.logFrequency - readings.get(0).logFrequency;
        sum += 2 * Math.log(start[state][state] + rate[state] * apart + LEAST_VARIANCE);
      }
    }
    return sum;
  }

  private static void predict(
      double[][] p, double memory, double smooth, double[] rate, double step) {
    for (int k = 0; k < 2; k++) {
      for (int l = 0; l < STATES; l++) {
        p[k][l] *= memory;
        p[l][k] *= memory;
      }
      p[k][k] += smooth * (1 - memory * memory);
    }
    for (int k = 2; k < STATES; k++) {
      p[k][k] += rate[k] * step;
    }
  }

  private void update(double[][] p, Reading reading, double variance) {
    double[][] seen = new double[STATES][2];
    for (int k = 0; k < STATES; k++) {
      for (int row = 0; row < 2; row++) {
        for (int l = 0; l < STATES; l++) {
          seen[k][row] += p[k][l] * reading.sees[row][l];
        }
      }
    }
    double noise = Math.max(LEAST_VARIANCE, variance);
    double s11 = noise + dot(reading.sees[0], seen, 0);
    double s21 = dot(reading.sees[1], seen, 0);
    double s22 = noise + dot(reading.sees[1], seen, 1);
    double determinant = s11 * s22 - s21 * s21;
    logDeterminant += Math.log(determinant);
    for (int k = 0; k < STATES; k++) {
      reading.gain[k][0] = (seen[k][0] * s22 - seen[k][1] * s21) / determinant;
      reading.gain[k][1] = (seen[k][1] * s11 - seen[k][0] * s21) / determinant;
    }
    for (int k = 0; k < STATES; k++) {
      for (int l = 0; l < STATES; l++) {
        p[k][l] -= reading.gain[k][0] * seen[l][0] + reading.gain[k][1] * seen[l][1];
      }
    }
    double root11 = Math.sqrt(s11);
    double root22 = Math.sqrt(determinant / s11);
    reading.scale11 = 1 / root11;
    reading.scale21 = -s21 / s11 / root22;
    reading.scale22 = 1 / root22;
  }

  private static double dot(double[] sees, double[][] seen, int row) {
    double sum = 0;
    for (int k = 0; k < STATES; k++) {
      sum += sees[k] * seen[k][row];
    }
    return sum;
  }

  /** The logarithm of the determinant of the covariance of all readings. */
  double logDeterminant() {
    return logDeterminant;
  }

  /** Whitens a column in place: real parts, imaginary parts, then the rows of the pins. */
  void apply(double[] column) {
    double[] state = new double[STATES];
    for (Reading reading : readings) {
      double re = column[reading.first];
      double im = column[reading.second];
      for (int k = 0; k < STATES; k++) {
        re -= reading.sees[0][k] * state[k];
        im -= reading.sees[1][k] * state[k];
      }
      column[reading.first] = reading.scale11 * re;
      column[reading.second] = reading.scale21 * re + reading.scale22 * im;
      for (int k = 0; k < STATES; k++) {
        state[k] += reading.gain[k][0] * re + reading.gain[k][1] * im;
      }
      state[0] *= reading.memory;
      state[1] *= reading.memory;
    }
  }
}
