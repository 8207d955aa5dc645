package conewise.analysis.feature;

import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * A parabola through the points about a turn of ln |Z| over ln f: where the turn lies and how high,
 * between the points.
 */
record LocalParabola(Estimate frequencyHz, Estimate modulusOhm) {

  /** Points within this of the turn in ln |Z| take part, where the jitter does not ask for more. */
  private static final double REACH = 0.1;

  /**
   * Part of the window by which the vertex may be off because a resonance is no parabola; covers
   * every peak and dip of the families in the tests.
   */
  private static final double SHAPE_ERROR = 0.06;

  private static final double COVERAGE_FACTOR = 1.96;

  Extremum extremum(double prominence) {
    return new Extremum(frequencyHz, modulusOhm, prominence);
  }

  static LocalParabola at(LogCurve log, int place, double turn) {
    double reach = Math.max(REACH, turn);
    int last = log.x().length - 1;
    int from = place;
    int to = place;
    while (from > 0 && Math.abs(log.y()[from - 1] - log.y()[place]) < reach) {
      from--;
    }
    while (to < last && Math.abs(log.y()[to + 1] - log.y()[place]) < reach) {
      to++;
    }
    from = Math.max(0, Math.min(from, place - 1));
    to = Math.min(last, Math.max(to, place + 1));
    int half = Math.max(1, Math.min(place - from, to - place) * 2);
    return fit(log, place, Math.max(from, place - half), Math.min(to, place + half));
  }

  private static LocalParabola fit(LogCurve log, int place, int from, int to) {
    int count = to - from + 1;
    double centre = log.x()[place];
    double width = log.x()[to] - log.x()[from];
    if (count < 3) {
      return onPoint(log, place, width);
    }
    RealMatrix design = new Array2DRowRealMatrix(count, 3);
    RealVector values = new ArrayRealVector(count);
    for (int i = 0; i < count; i++) {
      double t = (log.x()[from + i] - centre) / width;
      design.setRow(i, new double[] {1, t, t * t});
      values.setEntry(i, log.y()[from + i] - log.y()[place]);
    }
    RealVector c = new QRDecomposition(design).getSolver().solve(values);
    double vertex = -c.getEntry(1) / (2 * c.getEntry(2));
    double low = (log.x()[from] - centre) / width;
    double high = (log.x()[to] - centre) / width;
    if (!(vertex >= low && vertex <= high)) {
      return onPoint(log, place, width);
    }
    double spread =
        values.subtract(design.operate(c)).getNorm() / Math.sqrt(Math.max(1, count - 3));
    double sigma = Math.max(log.jitter(), spread);
    double top = c.getEntry(0) + vertex * (c.getEntry(1) + vertex * c.getEntry(2));
    // Slope noise over curvature: var(slope) of a line of count points over a unit window.
    double slopeSigma = sigma * Math.sqrt(12.0 / count);
    double statistical = COVERAGE_FACTOR * slopeSigma / (2 * Math.abs(c.getEntry(2)));
    double arm = width * Math.min(0.5, Math.hypot(statistical, SHAPE_ERROR));
    double heightArm =
        Math.hypot(COVERAGE_FACTOR * sigma * 1.5 / Math.sqrt(count), 0.1 * Math.abs(top))
            + shapeOfHeight(count, c.getEntry(2));
    return of(centre + vertex * width, arm, log.y()[place] + top, heightArm);
  }

  /** With few points on a sharp turn the parabola misses part of the height. */
  private static double shapeOfHeight(int count, double curvature) {
    return 0.1 * Math.abs(curvature) / ((count - 1) * (count - 1));
  }

  private static LocalParabola onPoint(LogCurve log, int place, double width) {
    return of(log.x()[place], width / 2, log.y()[place], 0.1);
  }

  private static LocalParabola of(double x, double xArm, double y, double yArm) {
    return new LocalParabola(estimate(x, xArm), estimate(y, yArm));
  }

  private static Estimate estimate(double log, double arm) {
    return new Estimate(Math.exp(log), new Interval(Math.exp(log - arm), Math.exp(log + arm)));
  }
}
