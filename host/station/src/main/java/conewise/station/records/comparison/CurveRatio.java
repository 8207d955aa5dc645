package conewise.station.records.comparison;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.complex.Complex;

/**
 * One curve over another, at the frequencies of the first that both curves reach.
 *
 * @param points at least one, rising in frequency
 */
public record CurveRatio(List<Point> points) {

  /**
   * The ratio at one frequency.
   *
   * @param frequencyHz above 0
   * @param decibel 20 log10 of the ratio of moduli
   * @param degrees the first phase less the second, -180 to 180
   */
  public record Point(double frequencyHz, double decibel, double degrees) {}

  public CurveRatio {
    points = List.copyOf(points);
  }

  /**
   * The ratio. Between two points the second curve is taken as straight, real and imaginary part
   * alike, over the logarithm of frequency.
   *
   * @return no result where the curves have no frequency in common, or one is 0 ohm throughout
   */
  public static Outcome<CurveRatio> of(ImpedanceCurve first, ImpedanceCurve second) {
    List<ImpedancePoint> others =
        second.points().stream().filter(point -> point.frequencyHz() > 0).toList();
    List<Point> points = new ArrayList<>();
    for (ImpedancePoint point : first.points()) {
      double hz = point.frequencyHz();
      if (hz > 0
          && !others.isEmpty()
          && hz >= others.get(0).frequencyHz()
          && hz <= others.get(others.size() - 1).frequencyHz()) {
        Complex one = new Complex(point.resistanceOhm(), point.reactanceOhm());
        Complex other = at(others, hz);
        if (one.abs() > 0 && other.abs() > 0) {
          Complex ratio = one.divide(other);
          points.add(
              new Point(hz, 20 * Math.log10(ratio.abs()), Math.toDegrees(ratio.getArgument())));
        }
      }
    }
    return points.isEmpty()
        ? Outcome.none("the two curves have no frequency in common")
        : Outcome.found(new CurveRatio(points));
  }

  private static Complex at(List<ImpedancePoint> points, double hz) {
    int next = 0;
    while (points.get(next).frequencyHz() < hz) {
      next++;
    }
    ImpedancePoint after = points.get(next);
    if (after.frequencyHz() == hz) {
      return new Complex(after.resistanceOhm(), after.reactanceOhm());
    }
    ImpedancePoint before = points.get(next - 1);
    double part =
        Math.log(hz / before.frequencyHz()) / Math.log(after.frequencyHz() / before.frequencyHz());
    return new Complex(
        before.resistanceOhm() + part * (after.resistanceOhm() - before.resistanceOhm()),
        before.reactanceOhm() + part * (after.reactanceOhm() - before.reactanceOhm()));
  }

  /** How the curves differ, for people. */
  public List<String> sentences() {
    return List.of(
        String.format(
            Locale.ROOT,
            "Levels differ most at %.1f Hz, by %+.2f dB.",
            largest().frequencyHz(),
            largest().decibel()),
        String.format(
            Locale.ROOT,
            "Phases differ most at %.1f Hz, by %+.1f degrees.",
            mostTurned().frequencyHz(),
            mostTurned().degrees()));
  }

  /** Where the moduli differ most. */
  public Point largest() {
    return points.stream()
        .max(Comparator.comparingDouble(point -> Math.abs(point.decibel())))
        .orElseThrow();
  }

  /** Where the phases differ most. */
  public Point mostTurned() {
    return points.stream()
        .max(Comparator.comparingDouble(point -> Math.abs(point.degrees())))
        .orElseThrow();
  }
}
