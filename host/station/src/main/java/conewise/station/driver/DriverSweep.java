package conewise.station.driver;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * One sweep of a driver.
 *
 * @param file where it came from
 * @param state the state that the driver was in
 * @param curve the impedance
 */
public record DriverSweep(Path file, DriverState state, ImpedanceCurve curve) {
  /**
   * More points tell hardly more, since a model's own error does not average out over them, and
   * make a fit slow: the jig's sweeps have some 120.
   */
  static final int MOST_POINTS = 200;

  /** What is fitted of it: the points up to a frequency, thinned where they are many. */
  DriverSweep fitted(double highestHz) {
    List<ImpedancePoint> kept =
        curve.points().stream().filter(point -> point.frequencyHz() <= highestHz).toList();
    return new DriverSweep(
        file, state, new ImpedanceCurve(thinned(kept), curve.scaleUncertainty()));
  }

  /** Points spread evenly over the logarithm of frequency; one at 0 Hz stays. */
  private static List<ImpedancePoint> thinned(List<ImpedancePoint> points) {
    if (points.size() <= MOST_POINTS) {
      return points;
    }
    int first = points.get(0).frequencyHz() == 0 ? 1 : 0;
    List<ImpedancePoint> thinned = new ArrayList<>(points.subList(0, first + 1));
    double lowestHz = points.get(first).frequencyHz();
    double highestHz = points.get(points.size() - 1).frequencyHz();
    double step = Math.pow(highestHz / lowestHz, 1.0 / (MOST_POINTS - 1 - first));
    double nextHz = lowestHz * step;
    for (ImpedancePoint point : points.subList(first + 1, points.size())) {
      if (point.frequencyHz() >= nextHz) {
        thinned.add(point);
        nextHz = Math.max(nextHz, point.frequencyHz() / Math.sqrt(step)) * step;
      }
    }
    return thinned;
  }
}
