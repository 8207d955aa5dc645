package conewise.analysis.impedance;

import java.util.List;

/**
 * Impedance over frequency: at least one point, frequencies strictly rising.
 *
 * @param points the points, in order of frequency, each with the uncertainty that is its own
 * @param scaleUncertainty relative standard uncertainty of a factor common to all points, as of the
 *     resistor that a jig was calibrated with: it does not average out over points, and ratios of
 *     points are free of it; from 0 to 1
 */
public record ImpedanceCurve(List<ImpedancePoint> points, double scaleUncertainty) {

  /** A curve whose scale is exact. */
  public ImpedanceCurve(List<ImpedancePoint> points) {
    this(points, 0);
  }

  public ImpedanceCurve {
    if (!(scaleUncertainty >= 0 && scaleUncertainty <= 1)) {
      throw new IllegalArgumentException(
          "the scale's relative standard uncertainty is "
              + scaleUncertainty
              + "; it must lie from 0 to 1");
    }
    points = List.copyOf(points);
    requireRising(points.stream().mapToDouble(ImpedancePoint::frequencyHz).toArray());
  }

  static void requireRising(double[] frequenciesHz) {
    if (frequenciesHz.length == 0) {
      throw new IllegalArgumentException("a curve holds at least one point; it had 0");
    }
    for (int i = 1; i < frequenciesHz.length; i++) {
      double before = frequenciesHz[i - 1];
      double here = frequenciesHz[i];
      if (!(here > before)) {
        throw new IllegalArgumentException(
            "point "
                + i
                + " stands at "
                + here
                + " Hz after "
                + before
                + " Hz; frequencies must rise strictly");
      }
    }
  }

  /**
   * The frequency of the first point, in hertz; 0 where that is a resistance read with direct
   * current.
   */
  public double lowestHz() {
    return points.get(0).frequencyHz();
  }

  /** The frequency of the last point, in hertz. */
  public double highestHz() {
    return points.get(points.size() - 1).frequencyHz();
  }
}
