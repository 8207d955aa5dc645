package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The filter against the covariance matrix itself, written out here from what a discrepancy states:
 * the determinant, and the products of any two whitened columns, must be those of a dense solution.
 */
class WhiteningTest {
  private static final int POINTS = 31;
  private static final int COLUMNS = 4;
  private static final double OCTAVE = Math.log(2);

  /** The suspension's pin below, within and above the curve; each part alone, small and large. */
  @ParameterizedTest
  @CsvSource({
    "32, 0, 0, 0, 0",
    "32, 0.003, 0, 0, 0",
    "32, 0.003, 0.004, 0, 0",
    "32, 0, 0.005, 0.008, 0",
    "32, 0, 0.005, 0, 0.4",
    "32, 0, 0.005, 0.008, 0.4",
    "7, 0.002, 0.003, 0.05, 0.03",
    "10, 0.002, 0.003, 0.05, 0.03",
    "3000, 0.002, 0.003, 0.02, 0.1",
    "45, 0.01, 0, 0.2, 1"
  })
  void productsAndDeterminantAreThoseOfTheWholeCovariance(
      double pinHz, double scattered, double smooth, double suspension, double coil) {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    double[] log = new double[POINTS];
    double[] noise = new double[POINTS];
    ModelDrift drift = drift(log, noise, random);
    drift.springPin = Math.log(pinHz);
    Discrepancy discrepancy = new Discrepancy(scattered, smooth, suspension, coil);
    Whitening filter = new Whitening(log, noise, drift, discrepancy);
    CholeskyDecomposition dense =
        new CholeskyDecomposition(covariance(log, noise, drift, discrepancy), 1e-9, 0);
    double[][] raw = new double[COLUMNS][2 * POINTS];
    double[][] white = new double[COLUMNS][];
    for (int c = 0; c < COLUMNS; c++) {
      Arrays.setAll(raw[c], i -> random.nextGaussian());
      white[c] = raw[c].clone();
      filter.apply(white[c]);
      for (int b = 0; b <= c; b++) {
        RealVector solved = dense.getSolver().solve(new ArrayRealVector(raw[c]));
        double expected = solved.dotProduct(new ArrayRealVector(raw[b]));
        double size = Math.sqrt(dot(white[c], white[c]) * dot(white[b], white[b]));
        assertEquals(expected, dot(white[c], white[b]), 1e-9 * size, "seed " + seed);
      }
    }
    double logDeterminant = 0;
    for (int i = 0; i < 2 * POINTS; i++) {
      logDeterminant += 2 * Math.log(dense.getL().getEntry(i, i));
    }
    assertEquals(logDeterminant, filter.logDeterminant(), 1e-8, "seed " + seed);
  }

  private static ModelDrift drift(double[] log, double[] noise, Random random) {
    ModelDrift drift = new ModelDrift(POINTS);
    for (int i = 0; i < POINTS; i++) {
      log[i] = i == 0 ? Math.log(10) : log[i - 1] + 0.03 + 0.2 * random.nextDouble();
      noise[i] = 0.001 + 0.01 * random.nextDouble();
      drift.springRe[i] = random.nextGaussian();
      drift.springIm[i] = random.nextGaussian();
      drift.coilRe[i] = 0.3 * random.nextGaussian();
      drift.coilIm[i] = 0.3 * random.nextGaussian();
    }
    return drift;
  }

  private static double dot(double[] a, double[] b) {
    return new ArrayRealVector(a, false).dotProduct(new ArrayRealVector(b, false));
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
