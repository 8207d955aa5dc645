package conewise.station.lab;

import conewise.simulator.box.Box;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;

/**
 * What the curve of a box shows when it is read without any error: peaks, dips and zeros of phase
 * of the simulator's own equations.
 */
final class TrueCurve {
  private static final double LOWEST_HZ = 8;
  private static final double HIGHEST_HZ = 390;
  private static final int STEPS = 280;
  private static final int HALVINGS = 40;

  private final SimulatedImpedance impedance;
  private final double[] hz = new double[STEPS + 1];
  private final double[] size = new double[STEPS + 1];
  private final double[] reactance = new double[STEPS + 1];

  TrueCurve(Box box) {
    impedance = SimulatedImpedance.of(box);
    for (int i = 0; i <= STEPS; i++) {
      hz[i] = LOWEST_HZ * StrictMath.pow(HIGHEST_HZ / LOWEST_HZ, (double) i / STEPS);
      Complex z = impedance.at(hz[i]);
      size[i] = z.abs();
      reactance[i] = z.getImaginary();
    }
  }

  Complex at(double frequencyHz) {
    return impedance.at(frequencyHz);
  }

  double modulusOhm(double frequencyHz) {
    return at(frequencyHz).abs();
  }

  /** Frequencies of the peaks of |Z|, rising. */
  List<Double> peaksHz() {
    List<Double> peaks = new ArrayList<>();
    for (int i = 1; i < STEPS; i++) {
      if (size[i] > size[i - 1] && size[i] >= size[i + 1]) {
        peaks.add(least(f -> -modulusOhm(f), hz[i - 1], hz[i + 1]));
      }
    }
    return peaks;
  }

  /** The frequency of the least |Z| between two others. */
  double dipHz(double lowHz, double highHz) {
    int best = -1;
    for (int i = 1; i < STEPS; i++) {
      if (hz[i] > lowHz && hz[i] < highHz && (best < 0 || size[i] < size[best])) {
        best = i;
      }
    }
    if (best < 0) {
      throw new IllegalArgumentException("no point from " + lowHz + " to " + highHz + " Hz");
    }
    return least(this::modulusOhm, hz[best - 1], hz[best + 1]);
  }

  /** The least |Z| above the one peak of a driver in free air. */
  double leastAfterPeakOhm() {
    return modulusOhm(dipHz(peaksHz().get(0), HIGHEST_HZ));
  }

  /** Where the reactance rises through zero between two peaks. */
  double phaseZeroHz(double lowHz, double highHz) {
    for (int i = 1; i <= STEPS; i++) {
      if (hz[i - 1] > lowHz && hz[i] < highHz && reactance[i - 1] < 0 && reactance[i] >= 0) {
        return zero(hz[i - 1], hz[i]);
      }
    }
    throw new IllegalArgumentException(
        "the phase does not rise through zero from " + lowHz + " to " + highHz + " Hz");
  }

  private double zero(double low, double high) {
    double a = low;
    double b = high;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (a + b) / 2;
      if (at(middle).getImaginary() < 0) {
        a = middle;
      } else {
        b = middle;
      }
    }
    return (a + b) / 2;
  }

  /** By thirds, which a function with one least value between the ends cannot escape. */
  private static double least(DoubleUnaryOperator value, double low, double high) {
    double a = low;
    double b = high;
    for (int i = 0; i < HALVINGS; i++) {
      double left = a + (b - a) / 3;
      double right = b - (b - a) / 3;
      if (value.applyAsDouble(left) < value.applyAsDouble(right)) {
        b = right;
      } else {
        a = left;
      }
    }
    return (a + b) / 2;
  }
}
