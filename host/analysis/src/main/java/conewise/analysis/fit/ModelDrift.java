package conewise.analysis.fit;

import org.apache.commons.math3.complex.Complex;

/**
 * How a curve goes when a driver's suspension or coil departs from its formula: for relaxations
 * 1/(1 + j f/fk) at corners fk all along the scale, what each would add to ln Z. What is made of
 * such relaxations has a real and an imaginary part that belong together, as all that is linear and
 * causal has (Kramers and Kronig): a compliance that falls with frequency has a loss where it
 * falls.
 *
 * <p>A column has the real parts of all points above 0 Hz, then their imaginary parts.
 */
final class ModelDrift {
  /** Frequency at which a coil is as its formula says. */
  private static final double COIL_PIN_HZ = 200;

  private static final Corners SUSPENSION = new Corners(3, 1, 6);
  private static final Corners COIL = new Corners(4, 2, 7);
  private static final ModelDrift NONE = new ModelDrift(new double[0][], new double[0][]);

  private final double[][] suspension;
  private final double[][] coil;

  ModelDrift(double[][] suspension, double[][] coil) {
    this.suspension = suspension;
    this.coil = coil;
  }

  /** Of a box that does not depart from its formulas. */
  static ModelDrift none() {
    return NONE;
  }

  /**
   * Of a box.
   *
   * @param frequencyHz the points
   * @param spring slope of ln Z by the logarithm of the suspension's impedance, at each point
   * @param resonanceHz where the suspension is as its formula says, so that resonance and Q are
   *     what they are there
   * @param coil slope of ln Z by the logarithm of the coil's inductive impedance
   */
  static ModelDrift of(double[] frequencyHz, Complex[] spring, double resonanceHz, Complex[] coil) {
    return new ModelDrift(
        SUSPENSION.columns(frequencyHz, spring, resonanceHz),
        COIL.columns(frequencyHz, coil, COIL_PIN_HZ));
  }

  /** A column for each relaxation of the suspension that has a strength of 1 an octave. */
  double[][] suspension() {
    return suspension;
  }

  /** The same of the coil. */
  double[][] coil() {
    return coil;
  }

  /** All columns, times the deviations that a discrepancy states. */
  double[][] columns(Discrepancy discrepancy) {
    int springs = discrepancy.suspension() > 0 ? suspension.length : 0;
    int coils = discrepancy.coil() > 0 ? coil.length : 0;
    double[][] columns = new double[springs + coils][];
    for (int k = 0; k < springs; k++) {
      columns[k] = times(discrepancy.suspension(), suspension[k]);
    }
    for (int k = 0; k < coils; k++) {
      columns[springs + k] = times(discrepancy.coil(), coil[k]);
    }
    return columns;
  }

  private static double[] times(double factor, double[] column) {
    double[] product = new double[column.length];
    for (int i = 0; i < product.length; i++) {
      product[i] = factor * column[i];
    }
    return product;
  }

  /** Corners evenly along the logarithm of frequency. */
  private record Corners(double lowestHz, double octavesApart, int count) {

    double[][] columns(double[] frequencyHz, Complex[] slope, double pinHz) {
      int points = frequencyHz.length;
      double[][] columns = new double[count][2 * points];
      for (int k = 0; k < count; k++) {
        double corner = lowestHz * Math.pow(2, k * octavesApart);
        Complex atPin = relaxation(pinHz / corner);
        for (int i = 0; i < points; i++) {
          Complex moved = relaxation(frequencyHz[i] / corner).subtract(atPin).multiply(slope[i]);
          columns[k][i] = Math.sqrt(octavesApart) * moved.getReal();
          columns[k][points + i] = Math.sqrt(octavesApart) * moved.getImaginary();
        }
      }
      return columns;
    }

    private static Complex relaxation(double overCorner) {
      double size = 1 + overCorner * overCorner;
      return new Complex(1 / size, -overCorner / size);
    }
  }
}
