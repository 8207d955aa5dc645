package conewise.analysis.sampling;

import org.apache.commons.math3.complex.Complex;

/**
 * Sums of equally spaced samples against one tone, about the middle of the record, and the way
 * back.
 *
 * <p>The record is cut into short blocks. Within a block the tone comes from one small table; from
 * block to block the sum is turned by an exact angle. So there is no trigonometry a sample and no
 * error that grows along the record.
 */
final class Projection {

  /** About the square root of a usual record, so that table and turns cost alike. */
  private static final int BLOCK = 64;

  private final int length;
  private final double radiansPerSample;
  private final double[] cosine = new double[BLOCK];
  private final double[] sine = new double[BLOCK];

  Projection(int length, double radiansPerSample) {
    this.length = length;
    this.radiansPerSample = radiansPerSample;
    for (int i = 0; i < BLOCK; i++) {
      cosine[i] = Math.cos(radiansPerSample * i);
      sine[i] = Math.sin(radiansPerSample * i);
    }
  }

  /** Sum of x[k] e^(j w k'), k' = k - (N - 1)/2: its parts are the sums against cos and sin. */
  Complex of(double[] samples) {
    double real = 0;
    double imaginary = 0;
    for (int start = 0; start < length; start += BLOCK) {
      int count = Math.min(BLOCK, length - start);
      double c0 = 0;
      double c1 = 0;
      double s0 = 0;
      double s1 = 0;
      int i = 0;
      for (; i + 1 < count; i += 2) {
        double even = samples[start + i];
        double odd = samples[start + i + 1];
        c0 += even * cosine[i];
        s0 += even * sine[i];
        c1 += odd * cosine[i + 1];
        s1 += odd * sine[i + 1];
      }
      if (i < count) {
        c0 += samples[start + i] * cosine[i];
        s0 += samples[start + i] * sine[i];
      }
      double turn = angleAt(start);
      double turnCosine = Math.cos(turn);
      double turnSine = Math.sin(turn);
      real += (c0 + c1) * turnCosine - (s0 + s1) * turnSine;
      imaginary += (c0 + c1) * turnSine + (s0 + s1) * turnCosine;
    }
    return new Complex(real, imaginary);
  }

  /** Takes c cos(w k') + s sin(w k') away from the samples, in place. */
  void subtract(double cosineAmplitude, double sineAmplitude, double[] samples) {
    for (int start = 0; start < length; start += BLOCK) {
      int count = Math.min(BLOCK, length - start);
      double turn = angleAt(start);
      double turnCosine = Math.cos(turn);
      double turnSine = Math.sin(turn);
      double c = cosineAmplitude * turnCosine + sineAmplitude * turnSine;
      double s = sineAmplitude * turnCosine - cosineAmplitude * turnSine;
      for (int i = 0; i < count; i++) {
        samples[start + i] -= c * cosine[i] + s * sine[i];
      }
    }
  }

  private double angleAt(int sample) {
    return radiansPerSample * (sample - (length - 1) / 2.0);
  }
}
