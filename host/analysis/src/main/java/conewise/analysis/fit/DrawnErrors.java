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

  /** One draw: for each point above 0 Hz its error relative to Z. */
  Complex[] draw(Random random) {
    int count = logFrequency.length;
    Complex[] spring = wander(drift.springPin, discrepancy.suspension(), random);
    Complex[] coil = wander(Whitening.COIL_PIN, discrepancy.coil(), random);
    Complex[] error = new Complex[count];
    Complex smooth = complex(discrepancy.smooth(), random);
    for (int i = 0; i < count; i++) {
      if (i > 0) {
        double memory = Math.exp(-(logFrequency[i] - logFrequency[i - 1]) / Whitening.LENGTH);
        double fresh = discrepancy.smooth() * Math.sqrt(1 - memory * memory);
        smooth = smooth.multiply(memory).add(complex(fresh, random));
      }
      error[i] =
          smooth
              .add(complex(Math.hypot(noise[i], discrepancy.scattered()), random))
              .add(new Complex(drift.springRe[i], drift.springIm[i]).multiply(spring[i]))
              .add(new Complex(drift.coilRe[i], drift.coilIm[i]).multiply(coil[i]));
    }
    return error;
  }

  /** A Brownian motion from 0 at the pin, both ways. */
  private Complex[] wander(double pin, double perOctave, Random random) {
    Complex[] path = new Complex[logFrequency.length];
    int above = 0;
    while (above < path.length && logFrequency[above] < pin) {
      above++;
    }
    walk(path, above, path.length, 1, pin, perOctave, random);
    walk(path, above - 1, -1, -1, pin, perOctave, random);
    return path;
  }

  private void walk(
      Complex[] path, int from, int to, int step, double pin, double perOctave, Random random) {
    Complex at = Complex.ZERO;
    double before = pin;
    for (int i = from; i != to; i += step) {
      double octaves = Math.abs(logFrequency[i] - before) / Math.log(2);
      at = at.add(complex(perOctave * Math.sqrt(octaves), random));
      path[i] = at;
      before = logFrequency[i];
    }
  }

  private static Complex complex(double deviation, Random random) {
    return new Complex(deviation * random.nextGaussian(), deviation * random.nextGaussian());
  }
}
