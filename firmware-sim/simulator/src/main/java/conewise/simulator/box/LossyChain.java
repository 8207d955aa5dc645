package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.QRDecomposition;

/**
 * Fits a chain of sections to a power law. The corner frequencies of the sections stand a constant
 * ratio apart; their resistances and the series inductance follow by least squares of the relative
 * deviation over the band. With six sections the largest deviation is 1.5 % for n from 0.4 to 0.95.
 */
final class LossyChain {
  private static final int SECTIONS = 6;
  private static final double FIRST_CORNER_HZ = 0.5;
  private static final double CORNER_RATIO = 6.36;
  private static final double LOWEST_HZ = 5;
  private static final double HIGHEST_HZ = 5000;
  private static final int POINTS = 120;

  private LossyChain() {}

  static Inductance fit(double k, double n) {
    require("K of a lossy inductance", k, 1e-6, 10, "ohm at 1 rad/s");
    require("n of a lossy inductance", n, 0.4, 1, "");
    if (n == 1) {
      return Inductance.plain(k);
    }
    double[] corner = new double[SECTIONS];
    for (int s = 0; s < SECTIONS; s++) {
      corner[s] = 2 * Math.PI * FIRST_CORNER_HZ * StrictMath.pow(CORNER_RATIO, s);
    }
    double[] part = solve(k, n, corner);
    List<Inductance.Section> sections = new ArrayList<>();
    for (int s = 0; s < SECTIONS; s++) {
      sections.add(new Inductance.Section(part[s] / corner[s], part[s]));
    }
    return new Inductance(part[SECTIONS], sections);
  }

  /** Returns the sections' resistances, then the series inductance. */
  private static double[] solve(double k, double n, double[] corner) {
    double[][] rows = new double[2 * POINTS][SECTIONS + 1];
    double[] wanted = new double[2 * POINTS];
    for (int p = 0; p < POINTS; p++) {
      double w =
          2 * Math.PI * LOWEST_HZ * StrictMath.pow(HIGHEST_HZ / LOWEST_HZ, p / (POINTS - 1.0));
      double modulus = k * StrictMath.pow(w, n);
      for (int s = 0; s < SECTIONS; s++) {
        double below = w * w + corner[s] * corner[s];
        rows[2 * p][s] = w * w / below / modulus;
        rows[2 * p + 1][s] = w * corner[s] / below / modulus;
      }
      rows[2 * p + 1][SECTIONS] = w / modulus;
      wanted[2 * p] = StrictMath.cos(n * Math.PI / 2);
      wanted[2 * p + 1] = StrictMath.sin(n * Math.PI / 2);
    }
    return new QRDecomposition(MatrixUtils.createRealMatrix(rows))
        .getSolver()
        .solve(MatrixUtils.createRealVector(wanted))
        .toArray();
  }
}
