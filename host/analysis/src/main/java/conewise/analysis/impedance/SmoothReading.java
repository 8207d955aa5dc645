package conewise.analysis.impedance;

import conewise.analysis.impedance.OpenReading.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * Takes the noise out of a reading of something that cannot bend sharply: open or shorted terminals
 * or a resistor, as a jig reads them. Its parts have their corners above the tones, so over the
 * tones the reading is a short power series in jw with real coefficients (any network of real parts
 * has them): the real part is even in frequency, the imaginary part odd.
 *
 * <p>Three coefficients are fitted to each part by least squares, every point with equal weight,
 * and each point gets the standard uncertainty that the scatter about the fit leaves it (JCGM 100,
 * 5.2). A reading that departs from such a series by more than its own uncertainty allows, or has
 * too few points, stays as it was.
 *
 * <p>What is left out: two filters of 1500 Hz whose corners differ by a tenth leave 0.01 % at 400
 * Hz (the series' next term, computed).
 */
public final class SmoothReading {

  /** Coefficients of each part. */
  private static final int COEFFICIENTS = 3;

  /** With fewer points there is little to gain and little to tell a bad fit by. */
  private static final int FEWEST_POINTS = 24;

  /**
   * The scatter about the fit may have this many times the variance that the points state. With 24
   * points or more chance stays below it (chi-square over 21 degrees of freedom: below 2 in 99.5 of
   * 100).
   */
  private static final double MOST_SCATTER = 2;

  private SmoothReading() {}

  /**
   * A reading of shorted terminals or of a resistor without its noise.
   *
   * @param read the reading, in ohm
   * @return a curve at the same frequencies with the same scale's uncertainty; {@code read} itself
   *     when it is none of a resistance
   */
  public static ImpedanceCurve of(ImpedanceCurve read) {
    List<ImpedancePoint> points = read.points();
    double[] hz = points.stream().mapToDouble(ImpedancePoint::frequencyHz).toArray();
    double stated =
        meanSquare(
            points, p -> p.uncertainty().map(u -> u.standardUncertaintyOhm()).orElse(Double.NaN));
    Optional<Part> real = Part.even(hz, values(points, ImpedancePoint::resistanceOhm), stated);
    Optional<Part> imaginary = Part.odd(hz, values(points, ImpedancePoint::reactanceOhm), stated);
    if (real.isEmpty() || imaginary.isEmpty()) {
      return read;
    }
    List<ImpedancePoint> smooth = new ArrayList<>(hz.length);
    for (int i = 0; i < hz.length; i++) {
      smooth.add(
          new ImpedancePoint(
              hz[i],
              real.get().value(i),
              imaginary.get().value(i),
              Optional.of(
                  new ImpedanceUncertainty(
                      real.get().variance(i), imaginary.get().variance(i), 0))));
    }
    return new ImpedanceCurve(smooth, read.scaleUncertainty());
  }

  /**
   * A reading of open terminals without its noise.
   *
   * @return a reading at the same frequencies; {@code read} itself when it is none of open
   *     terminals
   */
  public static OpenReading of(OpenReading read) {
    List<Point> points = read.points();
    double[] hz = points.stream().mapToDouble(Point::frequencyHz).toArray();
    double stated = meanSquare(points, Point::standardUncertaintySiemens);
    Optional<Part> real = Part.even(hz, values(points, Point::conductanceSiemens), stated);
    Optional<Part> imaginary = Part.odd(hz, values(points, Point::susceptanceSiemens), stated);
    if (real.isEmpty() || imaginary.isEmpty()) {
      return read;
    }
    List<Point> smooth = new ArrayList<>(hz.length);
    for (int i = 0; i < hz.length; i++) {
      smooth.add(
          new Point(
              hz[i],
              real.get().value(i),
              imaginary.get().value(i),
              Math.sqrt((real.get().variance(i) + imaginary.get().variance(i)) / 2)));
    }
    return new OpenReading(smooth);
  }

  private static <P> double[] values(List<P> points, ToDoubleFunction<P> value) {
    return points.stream().mapToDouble(value).toArray();
  }

  private static <P> double meanSquare(List<P> points, ToDoubleFunction<P> value) {
    double[] values = values(points, value);
    double sum = 0;
    for (double each : values) {
      sum += each * each;
    }
    return sum / values.length;
  }

  /** One part of a reading, fitted. */
  private record Part(RealMatrix terms, RealVector coefficients, RealMatrix covariance) {

    static Optional<Part> even(double[] hz, double[] values, double stated) {
      return fitted(hz, values, stated, 0);
    }

    static Optional<Part> odd(double[] hz, double[] values, double stated) {
      return fitted(hz, values, stated, 1);
    }

    /** Fits x^first, x^(first + 2) and so on, x the frequency over the highest. */
    private static Optional<Part> fitted(
        double[] hz, double[] values, double stated, int firstPower) {
      int count = hz.length;
      if (count < FEWEST_POINTS) {
        return Optional.empty();
      }
      RealMatrix terms = new Array2DRowRealMatrix(count, COEFFICIENTS);
      for (int i = 0; i < count; i++) {
        double x = hz[i] / hz[count - 1];
        for (int k = 0; k < COEFFICIENTS; k++) {
          terms.setEntry(i, k, Math.pow(x, firstPower + 2 * k));
        }
      }
      RealVector wanted = new ArrayRealVector(values);
      RealVector coefficients = new QRDecomposition(terms).getSolver().solve(wanted);
      RealVector left = wanted.subtract(terms.operate(coefficients));
      double scatter = left.dotProduct(left) / (count - COEFFICIENTS);
      // Also false when no uncertainty was stated.
      if (!(scatter <= MOST_SCATTER * stated)) {
        return Optional.empty();
      }
      RealMatrix inverse =
          new QRDecomposition(terms.transpose().multiply(terms)).getSolver().getInverse();
      return Optional.of(new Part(terms, coefficients, inverse.scalarMultiply(scatter)));
    }

    double value(int i) {
      return terms.getRowVector(i).dotProduct(coefficients);
    }

    double variance(int i) {
      RealVector row = terms.getRowVector(i);
      return Math.max(0, row.dotProduct(covariance.operate(row)));
    }
  }
}
