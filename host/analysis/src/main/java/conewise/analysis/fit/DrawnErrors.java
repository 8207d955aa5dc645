package conewise.analysis.fit;

import java.util.Random;
import org.apache.commons.math3.complex.Complex;

/** Draws what a curve may be off: noise, and each part of a {@link Discrepancy}. */
final class DrawnErrors {
  private final double[] logFrequency;
  private final double[] noise;
  private final ModelDrift drift;
  private final Discrepancy discrepancy;

  DrawnErrors(SweepEquations sweep, Discrepancy discrepancy, double[] coordinates) {
    logFrequency = sweep.logFrequency();
    noise = sweep.noise();
    drift = sweep.drift(coordinates);
    this.discrepancy = discrepancy;
  }

  /** One draw: for each point above 0 Hz its error of ln Z. */
  Complex[] draw(Random random) {
    int count = logFrequency.length;
    Complex[] error = new Complex[count];
    Complex smooth = complex(discrepancy.smooth(), random);
    for (int i = 0; i < count; i++) {
      if (i > 0) {
        double memory = Math.exp(-(logFrequency[i] - logFrequency[i - 1]) / SmoothErrors.LENGTH);
        double fresh = discrepancy.smooth() * Math.sqrt(1 - memory * memory);
        smooth = smooth.multiply(memory).add(complex(fresh, random));
      }
      error[i] = smooth.add(complex(Math.hypot(noise[i], discrepancy.scattered()), random));
    }
    for (double[] relaxation : drift.columns(discrepancy)) {
      double strength = random.nextGaussian();
      for (int i = 0; i < count; i++) {
        Complex part = new Complex(relaxation[i], relaxation[count + i]);
        error[i] = error[i].add(part.multiply(strength));
      }
    }
    return error;
  }

  private static Complex complex(double deviation, Random random) {
    return new Complex(deviation * random.nextGaussian(), deviation * random.nextGaussian());
  }
}
