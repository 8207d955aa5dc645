package conewise.analysis.impedance;

import java.util.List;

/**
 * Impedance over frequency: at least one point, frequencies strictly rising.
 *
 * @param points the points, in order of frequency
 */
public record ImpedanceCurve(List<ImpedancePoint> points) {

  public ImpedanceCurve {
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

  public double lowestHz() {
    return points.get(0).frequencyHz();
  }

  public double highestHz() {
    return points.get(points.size() - 1).frequencyHz();
  }
}
