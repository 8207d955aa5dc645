package conewise.analysis.fit;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * One sweep as equations: the complex logarithm of what the model says over what was measured. Its
 * slopes are the model's alone, so that the noise of what was measured does not lean on them: with
 * the ratio itself, dense curves read their resistance low. Real parts of all points come first,
 * then imaginary parts, then the DC resistance where there is one.
 */
final class SweepEquations {
  private static final double DC_LEAST_DEVIATION = 1e-4;
  private static final int NO_ROW = -1;

  private final Network network;
  private final NetworkSolver solver;
  private final List<Quantity> quantities;
  private final double[] stated;
  private final double[] values;

  /** For each unknown, the network's quantities that it moves. */
  private final int[][] moved;

  private final double[] frequencyHz;
  private final double[] logFrequency;
  private final double[] noise;
  private final Complex[] inverse;
  private final double dcOhm;
  private final double dcDeviation;
  private final boolean dc;
  private final double[] slopeRe;
  private final double[] slopeIm;

  SweepEquations(Sweep sweep, List<Unknown> unknowns) {
    network = Network.of(sweep.model());
    quantities = network.quantities();
    stated = network.nominal();
    values = stated.clone();
    solver = network.solver(stated);
    slopeRe = new double[stated.length];
    slopeIm = new double[stated.length];
    moved = new int[unknowns.size()][];
    for (int k = 0; k < moved.length; k++) {
      moved[k] =
          unknowns.get(k).moves().stream()
              .mapToInt(quantities::indexOf)
              .filter(index -> index >= 0)
              .toArray();
    }
    List<ImpedancePoint> points =
        sweep.curve().points().stream().filter(point -> point.frequencyHz() > 0).toList();
    frequencyHz = points.stream().mapToDouble(ImpedancePoint::frequencyHz).toArray();
    logFrequency = points.stream().mapToDouble(p -> Math.log(p.frequencyHz())).toArray();
    noise =
        points.stream()
            .mapToDouble(p -> p.standardUncertaintyOhm().orElse(0.0) / p.modulusOhm())
            .toArray();
    inverse =
        points.stream()
            .map(p -> new Complex(p.resistanceOhm(), p.reactanceOhm()).reciprocal())
            .toArray(Complex[]::new);
    ImpedancePoint first = sweep.curve().points().get(0);
    dc = first.frequencyHz() == 0;
    dcOhm = first.resistanceOhm();
    dcDeviation =
        Math.max(DC_LEAST_DEVIATION, first.standardUncertaintyOhm().orElse(0.0) / Math.abs(dcOhm));
  }

  int points() {
    return frequencyHz.length;
  }

  /** How many numbers were measured: each is a row. */
  int rows() {
    return 2 * frequencyHz.length + (dc ? 1 : 0);
  }

  List<Quantity> quantities() {
    return quantities;
  }

  double[] logFrequency() {
    return logFrequency.clone();
  }

  /** Relative standard deviation of each point's own noise. */
  double[] noise() {
    return noise.clone();
  }

  /** The filter for a discrepancy. */
  Whitening whitening(Discrepancy discrepancy, ModelDrift drift) {
    return new Whitening(logFrequency, noise, drift, discrepancy);
  }

  /** How the curve goes when suspension and coil depart from their formulas. */
  ModelDrift drift(double[] coordinates) {
    int points = frequencyHz.length;
    Complex[] spring = new Complex[points];
    Complex[] coil = new Complex[points];
    double[] at = values(coordinates);
    solver.set(at);
    for (int i = 0; i < points; i++) {
      solver.solve(frequencyHz[i]);
      solver.slopes(slopeRe, slopeIm);
      Complex z = new Complex(solver.resistanceOhm(), solver.reactanceOhm());
      spring[i] = new Complex(solver.springSlopeRe(), solver.springSlopeIm()).divide(z);
      coil[i] = new Complex(solver.coilSlopeRe(), solver.coilSlopeIm()).divide(z);
    }
    return ModelDrift.of(frequencyHz, spring, meanResonanceHz(at), coil);
  }

  /**
   * Standard deviation of what noise and discrepancy together leave of each point, relative: the
   * root mean square of its real and its imaginary part.
   */
  double[] explained(Discrepancy discrepancy, double[] coordinates) {
    int points = frequencyHz.length;
    double[][] relaxations = drift(coordinates).columns(discrepancy);
    double[] deviation = new double[points];
    for (int i = 0; i < points; i++) {
      double variance =
          noise[i] * noise[i]
              + discrepancy.scattered() * discrepancy.scattered()
              + discrepancy.smooth() * discrepancy.smooth();
      for (double[] column : relaxations) {
        variance += 0.5 * (column[i] * column[i] + column[points + i] * column[points + i]);
      }
      deviation[i] = Math.sqrt(variance);
    }
    return deviation;
  }

  /** The geometric mean of the drivers' resonances; any will do where nothing moves. */
  private double meanResonanceHz(double[] at) {
    double sum = 0;
    int count = 0;
    for (int i = 0; i < at.length; i++) {
      Quantity quantity = quantities.get(i);
      if (quantity.kind() == Kind.RESONANCE
          && quantities.contains(new Quantity(quantity.part(), Kind.ELECTRICAL_Q))) {
        sum += Math.log(at[i]);
        count++;
      }
    }
    return count == 0 ? 1 : Math.exp(sum / count);
  }

  /** Smooth errors alone, taken out of a column of residuals or slopes, in place. */
  void whiten(SmoothErrors smooth, double[] column) {
    smooth.apply(column);
    whitenDc(column);
  }

  /** The filter of smooth errors alone. */
  SmoothErrors smoothErrors(Discrepancy discrepancy) {
    return new SmoothErrors(logFrequency, noise, discrepancy);
  }

  /** Whitens a column of residuals or slopes, in place. */
  void whiten(Whitening whitening, double[] column) {
    whitening.apply(column);
    whitenDc(column);
  }

  /** The same for products of columns: see {@link Whitening#applySmooth}. */
  double[] whitenSmooth(Whitening whitening, double[] column) {
    whitenDc(column);
    return whitening.applySmooth(column);
  }

  private void whitenDc(double[] column) {
    if (dc) {
      column[column.length - 1] /= dcDeviation;
    }
  }

  /** The logarithm of the determinant of all errors' covariance. */
  double logDeterminant(Whitening whitening) {
    return whitening.logDeterminant() + dcLogDeterminant();
  }

  double dcLogDeterminant() {
    return dc ? 2 * Math.log(dcDeviation) : 0;
  }

  /** The quantities' values at a set of coordinates. */
  double[] values(double[] coordinates) {
    System.arraycopy(stated, 0, values, 0, stated.length);
    for (int k = 0; k < moved.length; k++) {
      for (int index : moved[k]) {
        values[index] = Unknown.moved(quantities.get(index), values[index], coordinates[k]);
      }
    }
    return values;
  }

  /**
   * Writes residuals and slopes, not whitened.
   *
   * @param coordinates of the unknowns, and of the curve's scale (a logarithm) after them
   * @param residuals receives {@link #rows}
   * @param slopes for each coordinate a column of {@link #rows}, or null where none are asked for
   */
  void evaluate(double[] coordinates, double[] residuals, double[][] slopes) {
    solver.set(values(coordinates));
    double logScale = coordinates[moved.length];
    int n = frequencyHz.length;
    for (int i = 0; i < n; i++) {
      solver.solve(frequencyHz[i]);
      double a = inverse[i].getReal();
      double b = inverse[i].getImaginary();
      double re = solver.resistanceOhm() * a - solver.reactanceOhm() * b;
      double im = solver.resistanceOhm() * b + solver.reactanceOhm() * a;
      residuals[i] = logScale + 0.5 * Math.log(re * re + im * im);
      residuals[n + i] = Math.atan2(im, re);
      if (slopes != null) {
        relativeSlopes(i, n + i, slopes);
      }
    }
    if (dc) {
      int row = residuals.length - 1;
      solver.solve(0);
      residuals[row] = logScale + Math.log(Math.abs(solver.resistanceOhm() / dcOhm));
      if (slopes != null) {
        relativeSlopes(row, NO_ROW, slopes);
      }
    }
  }

  /** The slopes of ln Z: those of Z, over Z as the model has it. */
  private void relativeSlopes(int rowRe, int rowIm, double[][] slopes) {
    double re = solver.resistanceOhm();
    double im = solver.reactanceOhm();
    double size = re * re + im * im;
    solver.slopes(slopeRe, slopeIm);
    for (int k = 0; k < moved.length; k++) {
      double x = sum(slopeRe, moved[k]);
      double y = sum(slopeIm, moved[k]);
      slopes[k][rowRe] = (x * re + y * im) / size;
      if (rowIm != NO_ROW) {
        slopes[k][rowIm] = (y * re - x * im) / size;
      }
    }
    slopes[moved.length][rowRe] = 1;
  }

  private static double sum(double[] of, int[] indices) {
    double sum = 0;
    for (int index : indices) {
      sum += of[index];
    }
    return sum;
  }
}
