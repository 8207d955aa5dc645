package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
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

  /** The resonance below, within and above the curve; each part alone, small and large. */
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
    "45, 0.01, 0, 0.2, 1",
    "45, 0, 0.01, 0.2, 3"
  })
  void productsAndDeterminantAreThoseOfTheWholeCovariance(
      double resonanceHz, double scattered, double smooth, double suspension, double coil) {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    Swept swept = new Swept(resonanceHz, random);
    double[] log = Arrays.stream(swept.hz).map(Math::log).toArray();
    ModelDrift drift = ModelDrift.of(swept.hz, swept.spring, resonanceHz, swept.coil);
    Discrepancy discrepancy = new Discrepancy(scattered, smooth, suspension, coil);
    Whitening filter = new Whitening(log, swept.noise, drift, discrepancy);
    CholeskyDecomposition dense = new CholeskyDecomposition(swept.covariance(discrepancy), 1e-9, 0);
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
        assertEquals(expected, product(filter, raw[c], raw[b]), 1e-9 * size, "seed " + seed);
      }
    }
    double logDeterminant = 0;
    for (int i = 0; i < 2 * POINTS; i++) {
      logDeterminant += 2 * Math.log(dense.getL().getEntry(i, i));
    }
    assertEquals(logDeterminant, filter.logDeterminant(), 1e-8, "seed " + seed);
  }

  private static double product(Whitening filter, double[] a, double[] b) {
    double[] smoothA = a.clone();
    double[] smoothB = b.clone();
    double less = dot(filter.applySmooth(smoothA), filter.applySmooth(smoothB));
    return dot(smoothA, smoothB) - less;
  }

  private static double dot(double[] a, double[] b) {
    return new ArrayRealVector(a, false).dotProduct(new ArrayRealVector(b, false));
  }

  /** Points of a curve, and how it goes with suspension and coil. */
  private static final class Swept {
    final double[] hz = new double[POINTS];
    final double[] noise = new double[POINTS];
    final Complex[] spring = new Complex[POINTS];
    final Complex[] coil = new Complex[POINTS];
    final double resonanceHz;

    Swept(double resonanceHz, Random random) {
      this.resonanceHz = resonanceHz;
      for (int i = 0; i < POINTS; i++) {
        hz[i] = i == 0 ? 10 : hz[i - 1] * Math.exp(0.03 + 0.2 * random.nextDouble());
        noise[i] = 0.001 + 0.01 * random.nextDouble();
        spring[i] = new Complex(random.nextGaussian(), random.nextGaussian());
        coil[i] = new Complex(0.3 * random.nextGaussian(), 0.3 * random.nextGaussian());
      }
    }

    RealMatrix covariance(Discrepancy d) {
      RealMatrix c = new Array2DRowRealMatrix(2 * POINTS, 2 * POINTS);
      for (int i = 0; i < POINTS; i++) {
        for (int j = 0; j < POINTS; j++) {
          double own = i == j ? noise[i] * noise[i] + d.scattered() * d.scattered() : 0;
          double octaves = Math.abs(Math.log(hz[i] / hz[j]) / OCTAVE);
          double smooth = own + d.smooth() * d.smooth() * Math.exp(-octaves);
          c.setEntry(i, j, smooth);
          c.setEntry(POINTS + i, POINTS + j, smooth);
        }
      }
      for (int octave = 0; octave < 6; octave++) {
        c = c.add(relaxation(3 << octave, spring, resonanceHz, d.suspension()));
      }
      // Two octaves apart: twice the variance each.
      for (int step = 0; step < 7; step++) {
        c = c.add(relaxation(4 << (2 * step), coil, 200, Math.sqrt(2) * d.coil()));
      }
      return c;
    }

    /** What one relaxation of a random strength adds. */
    private RealMatrix relaxation(double cornerHz, Complex[] slope, double pinHz, double strength) {
      Complex pinned = new Complex(1, pinHz / cornerHz).reciprocal();
      RealVector column = new ArrayRealVector(2 * POINTS);
      for (int i = 0; i < POINTS; i++) {
        Complex relaxed = new Complex(1, hz[i] / cornerHz).reciprocal().subtract(pinned);
        column.setEntry(i, strength * relaxed.multiply(slope[i]).getReal());
        column.setEntry(POINTS + i, strength * relaxed.multiply(slope[i]).getImaginary());
      }
      return column.outerProduct(column);
    }
  }
}
