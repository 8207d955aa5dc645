package conewise.benchmarks;

import java.util.Arrays;

/** What one core of this machine does at most, in plain loops of the same language. */
final class Limits {

  private static final int ROUNDS = 20;

  private Limits() {}

  /** Bytes read from main memory in a microsecond: an array far larger than any cache, summed. */
  static double memoryBytesPerMicrosecond() {
    double[] large = new double[1 << 24];
    Arrays.fill(large, 1);
    double best = Double.POSITIVE_INFINITY;
    for (int round = 0; round < ROUNDS; round++) {
      long start = System.nanoTime();
      double total = sum(large);
      best = Math.min(best, (System.nanoTime() - start) / 1e3);
      requireUsed(total);
    }
    return large.length * 8.0 / best;
  }

  /** Multiply-adds in a microsecond on data in the nearest cache, four sums at once. */
  static double multiplyAddsPerMicrosecond() {
    double[] small = new double[1024];
    Arrays.fill(small, 0.5);
    double best = Double.POSITIVE_INFINITY;
    int repeats = 2000;
    for (int round = 0; round < ROUNDS; round++) {
      long start = System.nanoTime();
      double total = 0;
      for (int r = 0; r < repeats; r++) {
        total += dot(small, r);
      }
      best = Math.min(best, (System.nanoTime() - start) / 1e3);
      requireUsed(total);
    }
    return (double) repeats * small.length / best;
  }

  /** A loop whose result is looked at cannot be optimised away. */
  private static void requireUsed(double total) {
    if (!(total > 0)) {
      throw new IllegalStateException("a sum of positive numbers came to " + total);
    }
  }

  private static double sum(double[] values) {
    double a = 0;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0; k < values.length; k += 4) {
      a += values[k];
      b += values[k + 1];
      c += values[k + 2];
      d += values[k + 3];
    }
    return a + b + c + d;
  }

  private static double dot(double[] values, double factor) {
    double a = factor;
    double b = 0;
    double c = 0;
    double d = 0;
    for (int k = 0; k < values.length; k += 4) {
      a += values[k] * values[k];
      b += values[k + 1] * values[k + 1];
      c += values[k + 2] * values[k + 2];
      d += values[k + 3] * values[k + 3];
    }
    return a + b + c + d;
  }
}
