package conewise.benchmarks;

import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.complex.ComplexField;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.FieldLUDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;

/**
 * The benchmark's box as one would write it with Apache Commons Math: currents of the pairs and the
 * pressure in the box, cones eliminated by hand, the equations given to the library.
 */
final class LibraryBox {
  static final double FS = 30;
  static final double QMS = 6;
  static final double QES = 0.45;
  static final double VAS = 0.05;
  static final double OHM = 3.5;
  static final double HENRY = 0.6e-3;
  static final double VOLUME = 0.14;
  static final double TUNING = 33;
  static final double VENT_Q = 50;
  static final double LEAK_Q = 12;
  static final double CHECK_HZ = 41;

  private static final double BULK = 1.204 * 343.2 * 343.2;
  private static final double TURN = 2 * Math.PI;
  private static final double LEAK_HZ = 40;
  private static final double AGREEMENT = 1e-9;

  private final int unknowns = ModelBenchmark.UNKNOWNS;

  /** Refuses to run where it does not solve the same box. */
  LibraryBox(Complex expected) {
    for (Complex own : new Complex[] {overComplexNumbers(CHECK_HZ), overRealNumbers(CHECK_HZ)}) {
      if (own.subtract(expected).abs() > AGREEMENT * expected.abs()) {
        throw new IllegalStateException(
            "the library's box has " + own + " ohm where the model has " + expected);
      }
    }
  }

  private Complex[][] equations(double hz) {
    double w = TURN * hz;
    double ws = TURN * FS;
    double mass = BULK / (ws * ws * VAS);
    Complex cone = new Complex(ws * mass / QMS, w * mass - BULK / (w * VAS)).reciprocal();
    double force = Math.sqrt(ws * mass * 2 * OHM / QES);
    Complex electrical = new Complex(2 * OHM, w * 2 * HENRY);
    Complex[][] a = new Complex[unknowns][unknowns];
    for (Complex[] row : a) {
      java.util.Arrays.fill(row, Complex.ZERO);
    }
    int p = unknowns - 1;
    for (int d = 0; d < p; d++) {
      a[d][d] = electrical.add(cone.multiply(force * force));
      a[d][p] = cone.multiply(force);
      a[p][d] = cone.multiply(force);
    }
    double wb = TURN * TUNING;
    double ventMass = BULK / (wb * wb * VOLUME);
    a[p][p] =
        cone.multiply(p)
            .add(new Complex(TURN * LEAK_HZ * VOLUME / BULK / LEAK_Q, w * VOLUME / BULK))
            .add(new Complex(wb * ventMass / VENT_Q, w * ventMass).reciprocal());
    return a;
  }

  Complex overComplexNumbers(double hz) {
    Complex[] right = new Complex[unknowns];
    java.util.Arrays.fill(right, Complex.ONE);
    right[unknowns - 1] = Complex.ZERO;
    Complex[] x =
        new FieldLUDecomposition<>(
                new Array2DRowFieldMatrix<>(ComplexField.getInstance(), equations(hz), false))
            .getSolver()
            .solve(new ArrayFieldVector<>(right, false))
            .toArray();
    Complex current = Complex.ZERO;
    for (int d = 0; d < unknowns - 1; d++) {
      current = current.add(x[d]);
    }
    return current.reciprocal();
  }

  Complex overRealNumbers(double hz) {
    Complex[][] a = equations(hz);
    double[][] real = new double[2 * unknowns][2 * unknowns];
    double[] right = new double[2 * unknowns];
    for (int i = 0; i < unknowns; i++) {
      right[i] = i < unknowns - 1 ? 1 : 0;
      for (int j = 0; j < unknowns; j++) {
        real[i][j] = a[i][j].getReal();
        real[i][unknowns + j] = -a[i][j].getImaginary();
        real[unknowns + i][j] = a[i][j].getImaginary();
        real[unknowns + i][unknowns + j] = a[i][j].getReal();
      }
    }
    RealVector x =
        new LUDecomposition(new Array2DRowRealMatrix(real, false))
            .getSolver()
            .solve(new ArrayRealVector(right, false));
    Complex current = Complex.ZERO;
    for (int d = 0; d < unknowns - 1; d++) {
      current = current.add(new Complex(x.getEntry(d), x.getEntry(unknowns + d)));
    }
    return current.reciprocal();
  }
}
