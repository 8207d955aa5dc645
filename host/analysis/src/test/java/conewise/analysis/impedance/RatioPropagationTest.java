package conewise.analysis.impedance;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class RatioPropagationTest {

  private static final double[] VOLT = {5.007, 4.994, 5.005, 4.990, 4.999};
  private static final double[] AMPERE = {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};
  private static final double[] RADIAN = {1.0456, 1.0438, 1.0468, 1.0428, 1.0433};

  /**
   * JCGM 100:2008 (the GUM), example H.2: resistance and reactance from simultaneous readings of V,
   * I and the phase, with their correlations. Published, to the digits shown: R 127.732 u 0.071, X
   * 219.847 u 0.295, correlation -0.588 (tables H.2 and H.3; data from memory).
   */
  @Test
  void resistanceAndReactanceOfGumExampleH2ComeOutWithTheirCorrelation() {
    double v = mean(VOLT);
    double i = mean(AMPERE);
    double phi = mean(RADIAN);
    double[][] covariance = new double[3][3];
    double[][] data = {VOLT, AMPERE, RADIAN};
    for (int a = 0; a < 3; a++) {
      for (int b = 0; b < 3; b++) {
        covariance[a][b] = covarianceOfMeans(data[a], data[b]);
      }
    }
    double r = v / i * Math.cos(phi);
    double x = v / i * Math.sin(phi);
    double[][] slopes = {{r / v, -r / i, -x}, {x / v, -x / i, r}};
    ImpedanceUncertainty u = RatioPropagation.propagate(slopes, covariance);
    assertEquals(127.732, r, 5e-4);
    assertEquals(219.847, x, 5e-4);
    assertEquals(0.071, Math.sqrt(u.varianceResistance()), 5e-4);
    // Unrounded arithmetic gives 0.29558; the published figure is one unit of its last digit lower.
    assertEquals(0.295, Math.sqrt(u.varianceReactance()), 1e-3);
    assertEquals(
        -0.588, u.covariance() / Math.sqrt(u.varianceResistance() * u.varianceReactance()), 5e-4);
  }

  /** The same example through the ratio of two phasors: V real, I = I e^(-j phi). */
  @Test
  void ratioOfPhasorsGivesTheSameAsGumExampleH2() {
    double v = mean(VOLT);
    double i = mean(AMPERE);
    double phi = mean(RADIAN);
    double[][] data = {VOLT, AMPERE, RADIAN};
    // Re V, Im V, Re I, Im I from V, I and phi, to first order.
    double[][] toParts = {
      {1, 0, 0},
      {0, 0, 0},
      {0, Math.cos(phi), -i * Math.sin(phi)},
      {0, -Math.sin(phi), -i * Math.cos(phi)}
    };
    double[][] covariance = new double[4][4];
    for (int a = 0; a < 4; a++) {
      for (int b = 0; b < 4; b++) {
        for (int c = 0; c < 3; c++) {
          for (int d = 0; d < 3; d++) {
            covariance[a][b] += toParts[a][c] * covarianceOfMeans(data[c], data[d]) * toParts[b][d];
          }
        }
      }
    }
    ImpedancePoint point =
        RatioPropagation.point(
            1000,
            new Complex(v, 0),
            new Complex(i * Math.cos(phi), -i * Math.sin(phi)),
            covariance);
    ImpedanceUncertainty u = point.uncertainty().orElseThrow();
    assertEquals(127.732, point.resistanceOhm(), 5e-4);
    assertEquals(219.847, point.reactanceOhm(), 5e-4);
    assertEquals(0.071, Math.sqrt(u.varianceResistance()), 5e-4);
    // Unrounded arithmetic gives 0.29558; the published figure is one unit of its last digit lower.
    assertEquals(0.295, Math.sqrt(u.varianceReactance()), 1e-3);
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value / values.length;
    }
    return sum;
  }

  private static double covarianceOfMeans(double[] a, double[] b) {
    double sum = 0;
    for (int k = 0; k < a.length; k++) {
      sum += (a[k] - mean(a)) * (b[k] - mean(b));
    }
    return sum / (a.length * (a.length - 1.0));
  }
}
