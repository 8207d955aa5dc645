package conewise.analysis.sampling;

import org.apache.commons.math3.complex.Complex;

/**
 * Sums of equally spaced samples against one tone, about the middle of the record, and the way
 * back.
 *
 * <p>The record is cut into short blocks. Within a block the tone comes from one small table; from
 * block to block the sum is turned by a rotation, which starts anew from an exact angle every
 * {@value #EXACT_EVERY} blocks. So there is next to no trigonometry and no error that grows along
 * the record.
 */
final class Projection {

  /** About the square root of a usual record, so that table and turns cost alike. */
  private static final int BLOCK = 64;

  /** Blocks from one exact angle to the next. */
  private static final int EXACT_EVERY = 32;

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
    Turn turn = new Turn();
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
      turn.to(start);
      double turnCosine = turn.cosine;
      double turnSine = turn.sine;
      real += (c0 + c1) * turnCosine - (s0 + s1) * turnSine;
      imaginary += (c0 + c1) * turnSine + (s0 + s1) * turnCosine;
    }
    return new Complex(real, imaginary);
  }

  /** Takes c cos(w k') + s sin(w k') away from the samples, in place. */
  void subtract(double cosineAmplitude, double sineAmplitude, double[] samples) {
    Turn turn = new Turn();
    for (int start = 0; start < length; start += BLOCK) {
      int count = Math.min(BLOCK, length - start);
      turn.to(start);
      double turnCosine = turn.cosine;
      double turnSine = turn.sine;
      double c = cosineAmplitude * turnCosine + sineAmplitude * turnSine;
      double s = sineAmplitude * turnCosine - cosineAmplitude * turnSine;
      for (int i = 0; i < count; i++) {
        samples[start + i] -= c * cosine[i] + s * sine[i];
      }
    }
  }

  /** The angle at the start of each block in order, as cosine and sine. */
  private final class Turn {
    private final double stepCosine = Math.cos(radiansPerSample * BLOCK);
    private final double stepSine = Math.sin(radiansPerSample * BLOCK);
    private double cosine;
    private double sine;

    void to(int start) {
      if (start % (EXACT_EVERY * BLOCK) == 0) {
        double angle = radiansPerSample * (start - (length - 1) / 2.0);
        cosine = Math.cos(angle);
        sine = Math.sin(angle);
      } else {
        double turned = cosine * stepCosine - sine * stepSine;
        sine = cosine * stepSine + sine * stepCosine;
        cosine = turned;
      }
    }
  }
}
