package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The filter against the covariance matrix itself, written out here from what a discrepancy states:
 * the determinant and the squares of whitened columns must be those of a dense solution.
 */
class WhiteningTest {
  private static final int POINTS = 23;
  private static final double OCTAVE = Math.log(2);

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void squaresAndDeterminantAreThoseOfTheWholeCovariance(long seed) {
    Random random = new Random(seed);
    double[] log = new double[POINTS];
    double[] noise = new double[POINTS];
    ModelDrift drift = new ModelDrift(POINTS);
    drift.springPin = Math.log(32);
    for (int i = 0; i < POINTS; i++) {
      log[i] = i == 0 ? Math.log(10) : log[i - 1] + 0.05 + 0.2 * random.nextDouble();
      noise[i] = 0.002 + 0.01 * random.nextDouble();
      drift.springRe[i] = random.nextGaussian();
      drift.springIm[i] = random.nextGaussian();
      drift.coilRe[i] = 0.3 * random.nextGaussian();
      drift.coilIm[i] = 0.3 * random.nextGaussian();
    }
    boolean pinned = seed % 2 == 0;
    Discrepancy discrepancy = new Discrepancy(0.003, 0.004, pinned ? 0.01 : 0, pinned ? 0.05 : 0);
    Whitening whitening = new Whitening(log, noise, drift, discrepancy);
    double[] column = new double[2 * POINTS + Whitening.PINS];
    for (int i = 0; i < 2 * POINTS; i++) {
      column[i] = random.nextGaussian();
    }
    RealVector raw = new ArrayRealVector(column, 0, 2 * POINTS);
    whitening.apply(column);
    double squares = new ArrayRealVector(column).dotProduct(new ArrayRealVector(column));
    RealMatrix covariance = covariance(log, noise, drift, discrepancy);
    CholeskyDecomposition dense = new CholeskyDecomposition(covariance, 1e-9, 0);
    double expected = raw.dotProduct(dense.getSolver().solve(raw));
    assertEquals(expected, squares, 1e-5 * expected, "seed " + seed);
    double logDeterminant = 0;
    for (int i = 0; i < 2 * POINTS; i++) {
      logDeterminant += 2 * Math.log(dense.getL().getEntry(i, i));
    }
    assertEquals(logDeterminant, whitening.logDeterminant(), 1e-3, "seed " + seed);
  }

  /** Brownian motion from a pin: min of the distances on one side, 0 across. */
  private static double brownian(double a, double b, double pin, double perOctave) {
    boolean sameSide = (a - pin) * (b - pin) > 0;
    double shared = sameSide ? Math.min(Math.abs(a - pin), Math.abs(b - pin)) : 0;
    return perOctave * perOctave * shared / OCTAVE;
  }

  private static RealMatrix covariance(
      double[] log, double[] noise, ModelDrift drift, Discrepancy d) {
    RealMatrix c = new Array2DRowRealMatrix(2 * POINTS, 2 * POINTS);
    for (int i = 0; i < POINTS; i++) {
      for (int j = 0; j < POINTS; j++) {
        double own = i == j ? noise[i] * noise[i] + d.scattered() * d.scattered() : 0;
        double smooth = d.smooth() * d.smooth() * Math.exp(-Math.abs(log[i] - log[j]) / OCTAVE);
        double spring = brownian(log[i], log[j], drift.springPin, d.suspension());
        double coil = brownian(log[i], log[j], Math.log(200), d.coil());
        double even =
            own
                + smooth
                + spring
                    * (drift.springRe[i] * drift.springRe[j]
                        + drift.springIm[i] * drift.springIm[j])
                + coil * (drift.coilRe[i] * drift.coilRe[j] + drift.coilIm[i] * drift.coilIm[j]);
        double odd =
            spring * (drift.springRe[i] * drift.springIm[j] - drift.springIm[i] * drift.springRe[j])
                + coil * (drift.coilRe[i] * drift.coilIm[j] - drift.coilIm[i] * drift.coilRe[j]);
        c.setEntry(i, j, even);
        c.setEntry(POINTS + i, POINTS + j, even);
        c.setEntry(i, POINTS + j, odd);
        c.setEntry(POINTS + i, j, -odd);
      }
    }
    return c;
  }
}
