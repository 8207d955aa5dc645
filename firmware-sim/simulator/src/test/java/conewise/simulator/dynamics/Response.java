package conewise.simulator.dynamics;

import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.FieldLUDecomposition;

/** Exact frequency responses of linear systems, for checks against closed forms. */
public final class Response {
  private Response() {}

  /** Response of each output to input 0 in continuous time: C (jw - A)^-1 B + D. */
  public static Complex[] of(StateSpace system, double hz) {
    return solve(system.a(), system.b(), system.c(), system.d(), new Complex(0, 2 * Math.PI * hz));
  }

  /** Response of each output to input 0 from tick to tick: C (z - A)^-1 B + D. */
  public static Complex[] of(DiscreteModel model, double hz) {
    double angle = 2 * Math.PI * hz * model.tickSeconds();
    Complex z = new Complex(Math.cos(angle), Math.sin(angle));
    return solve(model.a(), model.b(), model.c(), model.d(), z);
  }

  private static Complex[] solve(
      double[][] a, double[][] b, double[][] c, double[][] d, Complex point) {
    int n = a.length;
    // Scaling by powers of two keeps pascals and metres from spoiling the pivots.
    double[] scale = new double[n];
    for (int k = 0; k < n; k++) {
      double largest = point.abs();
      for (double each : a[k]) {
        largest = Math.max(largest, Math.abs(each));
      }
      scale[k] = 1 / largest;
    }
    Complex[][] matrix = new Complex[n][n];
    Complex[] right = new Complex[n];
    for (int row = 0; row < n; row++) {
      for (int col = 0; col < n; col++) {
        Complex entry = new Complex(-a[row][col]);
        matrix[row][col] = (row == col ? entry.add(point) : entry).multiply(scale[row]);
      }
      right[row] = new Complex(b[row][0] * scale[row]);
    }
    Complex[] state =
        new FieldLUDecomposition<>(new Array2DRowFieldMatrix<>(matrix))
            .getSolver()
            .solve(new ArrayFieldVector<>(right))
            .toArray();
    Complex[] outputs = new Complex[c.length];
    for (int row = 0; row < c.length; row++) {
      outputs[row] = new Complex(d[row][0]);
      for (int k = 0; k < n; k++) {
        outputs[row] = outputs[row].add(state[k].multiply(c[row][k]));
      }
    }
    return outputs;
  }
}
