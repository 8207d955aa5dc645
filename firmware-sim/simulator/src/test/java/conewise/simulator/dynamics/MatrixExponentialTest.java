package conewise.simulator.dynamics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** Closed forms, and values of scipy.linalg.expm (SciPy 1.10.1) computed beside. */
class MatrixExponentialTest {
  @Test
  void rotationTurnsByItsAngle() {
    double[][] e = MatrixExponential.of(new double[][] {{0, -2}, {2, 0}});
    assertEquals(Math.cos(2), e[0][0], 1e-15);
    assertEquals(-Math.sin(2), e[0][1], 1e-15);
  }

  @Test
  void nilpotentGivesAFinitePolynomial() {
    double[][] e = MatrixExponential.of(new double[][] {{0, 3, 0}, {0, 0, 5}, {0, 0, 0}});
    assertEquals(3, e[0][1], 1e-14);
    assertEquals(7.5, e[0][2], 1e-14);
    assertEquals(1, e[2][2], 0);
  }

  @Test
  void stiffDecayAndSlowDecayAreBothExact() {
    double[][] e = MatrixExponential.of(new double[][] {{-1e6, 0}, {1, -0.5}});
    assertEquals(0, e[0][0], 1e-300);
    assertEquals(Math.exp(-0.5), e[1][1], 1e-9 * Math.exp(-0.5));
    assertEquals(Math.exp(-0.5) / (1e6 - 0.5), e[1][0], 1e-15);
  }

  @Test
  void refusesWhatIsNotFinite() {
    assertThrows(
        IllegalArgumentException.class, () -> MatrixExponential.of(new double[][] {{Double.NaN}}));
  }

  @Test
  void badlyScaledCoupledMatrixAgreesWithSciPy() {
    double[][] exponent = {
      {-3, 1.5, 0, 2}, {0.25, -40, 7, 0}, {100, -20, -300, 0.5}, {0, -1e-3, 2e4, -9}
    };
    double[][] expected = {
      {78.26980069046, -10.84887759714, 85.24057683644, 1.733666309353},
      {1.309245622673, -0.04629420354816, 1.424093425604, 0.0289211899641},
      {24.46748669654, -3.400829942853, 26.64647214159, 0.5419540385281},
      {4259.690797905, -592.96532848, 4639.398291662, 94.35725507904}
    };
    for (double[] row : exponent) {
      for (int k = 0; k < 4; k++) {
        row[k] *= 0.05;
      }
    }
    double[][] e = MatrixExponential.of(exponent);
    for (int row = 0; row < 4; row++) {
      for (int col = 0; col < 4; col++) {
        // Both compute in doubles through some squarings of a norm of 1000: 11 digits are sure.
        assertEquals(1, e[row][col] / expected[row][col], 1e-11, row + "," + col);
      }
    }
  }
}
