package conewise.analysis.fit;

import static java.lang.Math.exp;
import static java.lang.Math.log;
import static java.lang.Math.pow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.LeastSquares.Solution;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Data sets with certified answers: NIST, Statistical Reference Datasets, nonlinear regression
 * (itl.nist.gov/div898/strd), eleven digits certified. Misra1a, MGH09, MGH10 and Thurber were read
 * there; the certified figures of the others are from memory, and each set's certified residual sum
 * of squares must come out of its data and certified parameters before anything else is asked.
 */
class CertifiedRegressionTest {
  private static final double SEVEN_DIGITS = 1e-7;
  private static final int MOST_STEPS = 20_000;

  /** A model y = f(b, x): writes its slopes by b, returns its value. */
  private interface Curve {
    double at(double[] b, double x, double[] slopes);
  }

  /** A data set. */
  static final class DataSet {
    private final String name;
    private final Curve curve;
    private final double[][] starts;
    private final double[] certified;
    private final double residualSum;

    /** Each y, then its x. */
    private final double[] data;

    DataSet(
        String name,
        Curve curve,
        double[][] starts,
        double[] certified,
        double residualSum,
        double... data) {
      this.name = name;
      this.curve = curve;
      this.starts = starts;
      this.certified = certified;
      this.residualSum = residualSum;
      this.data = data;
    }

    @Override
    public String toString() {
      return name;
    }
  }

  private static double saturation(double[] b, double x, double[] slopes) {
    slopes[0] = 1 - exp(-b[1] * x);
    slopes[1] = b[0] * x * exp(-b[1] * x);
    return b[0] * slopes[0];
  }

  private static double power(double[] b, double x, double[] slopes) {
    slopes[0] = pow(x, b[1]);
    slopes[1] = b[0] * slopes[0] * log(x);
    return b[0] * slopes[0];
  }

  private static double linearOverQuadratic(double[] b, double x, double[] slopes) {
    double above = x * x + x * b[1];
    double below = x * x + x * b[2] + b[3];
    slopes[0] = above / below;
    slopes[1] = b[0] * x / below;
    slopes[2] = -b[0] * above * x / (below * below);
    slopes[3] = -b[0] * above / (below * below);
    return b[0] * above / below;
  }

  private static double thermistor(double[] b, double x, double[] slopes) {
    double sum = x + b[2];
    slopes[0] = exp(b[1] / sum);
    slopes[1] = b[0] * slopes[0] / sum;
    slopes[2] = -b[0] * slopes[0] * b[1] / (sum * sum);
    return b[0] * slopes[0];
  }

  private static double cubicOverCubic(double[] b, double x, double[] slopes) {
    double above = b[0] + x * (b[1] + x * (b[2] + x * b[3]));
    double below = 1 + x * (b[4] + x * (b[5] + x * b[6]));
    for (int k = 0; k < 4; k++) {
      slopes[k] = pow(x, k) / below;
    }
    for (int k = 4; k < 7; k++) {
      slopes[k] = -above * pow(x, k - 3) / (below * below);
    }
    return above / below;
  }

  private static double logistic(double[] b, double x, double[] slopes) {
    double e = exp(b[1] - b[2] * x);
    slopes[0] = 1 / (1 + e);
    slopes[1] = -b[0] * e / ((1 + e) * (1 + e));
    slopes[2] = -x * slopes[1];
    return b[0] / (1 + e);
  }

  private static double growth(double[] b, double x, double[] slopes) {
    double e = exp(b[1] - b[2] * x);
    slopes[0] = pow(1 + e, -1 / b[3]);
    double y = b[0] * slopes[0];
    slopes[1] = -y * e / ((1 + e) * b[3]);
    slopes[2] = -x * slopes[1];
    slopes[3] = y * log(1 + e) / (b[3] * b[3]);
    return y;
  }

  private static double[] of(double... values) {
    return values;
  }

  private static double[][] starts(double[]... starts) {
    return starts;
  }

  static Stream<DataSet> dataSets() {
    return Stream.of(
        new DataSet(
            "Misra1a",
            CertifiedRegressionTest::saturation,
            starts(of(500, 0.0001), of(250, 0.0005)),
            of(2.3894212918e2, 5.5015643181e-4),
            1.2455138894e-1,
            of(
                10.07, 77.6, 14.73, 114.9, 17.94, 141.1, 23.93, 190.8, 29.61, 239.9, 35.18, 289,
                40.02, 332.8, 44.82, 378.4, 50.76, 434.8, 55.05, 477.3, 61.01, 536.8, 66.4, 593.1,
                75.47, 689.1, 81.78, 760)),
        new DataSet(
            "BoxBOD",
            CertifiedRegressionTest::saturation,
            starts(of(1, 1), of(100, 0.75)),
            of(2.1380940889e2, 5.4723748542e-1),
            1.1680088766e3,
            of(109, 1, 149, 2, 149, 3, 191, 5, 213, 7, 224, 10)),
        new DataSet(
            "DanWood",
            CertifiedRegressionTest::power,
            starts(of(1, 5), of(0.7, 4)),
            of(7.6886226176e-1, 3.8604055871),
            4.3173084083e-3,
            of(2.138, 1.309, 3.421, 1.471, 3.597, 1.490, 4.340, 1.565, 4.882, 1.611, 5.660, 1.680)),
        new DataSet(
            "MGH09",
            CertifiedRegressionTest::linearOverQuadratic,
            starts(of(25, 39, 41.5, 39), of(0.25, 0.39, 0.415, 0.39)),
            of(1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1),
            3.0750560385e-4,
            of(
                0.1957, 4, 0.1947, 2, 0.1735, 1, 0.1600, 0.5, 0.0844, 0.25, 0.0627, 0.167, 0.0456,
                0.125, 0.0342, 0.1, 0.0323, 0.0833, 0.0235, 0.0714, 0.0246, 0.0625)),
        new DataSet(
            "MGH10",
            CertifiedRegressionTest::thermistor,
            starts(of(2, 400_000, 25_000), of(0.02, 4000, 250)),
            of(5.6096364710e-3, 6.1813463463e3, 3.4522363462e2),
            8.7945855171e1,
            of(
                34_780, 50, 28_610, 55, 23_650, 60, 19_630, 65, 16_370, 70, 13_720, 75, 11_540, 80,
                9744, 85, 8261, 90, 7030, 95, 6005, 100, 5147, 105, 4427, 110, 3820, 115, 3307, 120,
                2872, 125)),
        new DataSet(
            "Rat42",
            CertifiedRegressionTest::logistic,
            starts(of(100, 1, 0.1), of(75, 2.5, 0.07)),
            of(7.2462237576e1, 2.6180768402, 6.7359200066e-2),
            8.0565229338,
            of(
                8.93, 9, 10.8, 14, 18.59, 21, 22.33, 28, 39.35, 42, 56.11, 57, 61.73, 63, 64.62, 70,
                67.08, 79)),
        new DataSet(
            "Rat43",
            CertifiedRegressionTest::growth,
            starts(of(100, 10, 1, 1), of(700, 5, 0.75, 1.3)),
            of(6.9964151270e2, 5.2771253025, 7.5962938329e-1, 1.2792483859),
            8.7864049080e3,
            of(
                16.08, 1, 33.83, 2, 65.80, 3, 97.20, 4, 191.55, 5, 326.20, 6, 386.87, 7, 520.53, 8,
                590.03, 9, 651.92, 10, 724.93, 11, 699.56, 12, 689.96, 13, 637.56, 14, 717.41, 15)),
        new DataSet(
            "Thurber",
            CertifiedRegressionTest::cubicOverCubic,
            starts(of(1000, 1000, 400, 40, 0.7, 0.3, 0.03), of(1300, 1500, 500, 75, 1, 0.4, 0.05)),
            of(
                1.2881396800e3,
                1.4910792535e3,
                5.8323836877e2,
                7.5416644291e1,
                9.6629502864e-1,
                3.9797285797e-1,
                4.9727297349e-2),
            5.6427082397e3,
            of(
                80.574, -3.067, 84.248, -2.981, 87.264, -2.921, 87.195, -2.912, 89.076, -2.840,
                89.608, -2.797, 89.868, -2.702, 90.101, -2.699, 92.405, -2.633, 95.854, -2.481,
                100.696, -2.363, 101.060, -2.322, 401.672, -1.501, 390.724, -1.460, 567.534, -1.274,
                635.316, -1.212, 733.054, -1.100, 759.087, -1.046, 894.206, -0.915, 990.785, -0.714,
                1090.109, -0.566, 1080.914, -0.545, 1122.643, -0.400, 1178.351, -0.309, 1260.531,
                -0.109, 1273.514, -0.103, 1288.339, 0.010, 1327.543, 0.119, 1353.863, 0.377,
                1414.509, 0.790, 1425.208, 0.963, 1421.384, 1.006, 1442.962, 1.115, 1464.350, 1.572,
                1468.705, 1.841, 1447.894, 2.047, 1457.628, 2.200)));
  }

  private static LeastSquares.Problem problem(DataSet set) {
    return new LeastSquares.Problem() {
      @Override
      public int rows() {
        return set.data.length / 2;
      }

      @Override
      public void evaluate(double[] b, double[] residuals, double[][] slopes) {
        for (int i = 0; i < rows(); i++) {
          double y = set.data[2 * i];
          residuals[i] = set.curve.at(b, set.data[2 * i + 1], slopes[i]) - y;
        }
      }
    };
  }

  @ParameterizedTest
  @MethodSource("dataSets")
  void theDataAreThoseThatWereCertified(DataSet set) {
    LeastSquares.Problem problem = problem(set);
    double[] residuals = new double[problem.rows()];
    problem.evaluate(set.certified, residuals, new double[problem.rows()][set.certified.length]);
    double sum = java.util.Arrays.stream(residuals).map(r -> r * r).sum();
    assertEquals(set.residualSum, sum, 1e-9 * set.residualSum);
  }

  @ParameterizedTest
  @MethodSource("dataSets")
  void bothStartsReachSevenCertifiedDigits(DataSet set) {
    for (double[] start : set.starts) {
      Outcome<Solution> outcome = LeastSquares.solve(problem(set), start, MOST_STEPS, 1e-14);
      String where = set.name + " from " + java.util.Arrays.toString(start);
      assertTrue(outcome instanceof Found<Solution>, where + ": " + outcome);
      Solution solution = ((Found<Solution>) outcome).value();
      for (int k = 0; k < start.length; k++) {
        double certified = set.certified[k];
        assertEquals(
            certified,
            solution.parameters()[k],
            SEVEN_DIGITS * Math.abs(certified),
            where + ", parameter " + (k + 1));
      }
      assertEquals(set.residualSum, solution.sumOfSquares(), SEVEN_DIGITS * set.residualSum, where);
    }
  }
}
