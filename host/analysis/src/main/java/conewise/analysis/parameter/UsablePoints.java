package conewise.analysis.parameter;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.List;

/** What of a curve a model of lumped parts can be fitted to. */
public final class UsablePoints {
  /** The model holds to about 400 Hz (docs/model.md); the highest tone of a jig lies just above. */
  private static final double HIGHEST_HZ = 420;

  /** A driver of a higher resonance needs as much above it to tell its coil. */
  private static final double HIGHEST_OVER_RESONANCE = 8;

  /**
   * More points tell hardly more, since a model's own error does not average out over them, and
   * make a fit slow: the jig's sweeps have some 120.
   */
  public static final int MOST = 200;

  private UsablePoints() {}

  /** Up to where curves are fitted of drivers whose highest resonance is given, all in hertz. */
  public static double highestHz(double resonanceHz) {
    return Math.max(HIGHEST_HZ, HIGHEST_OVER_RESONANCE * resonanceHz);
  }

  /**
   * The points of a curve up to a frequency, thinned to at most {@link #MOST} that are spread
   * evenly over its logarithm; one at 0 Hz stays.
   *
   * @return none where no point lies so low
   */
  public static Outcome<ImpedanceCurve> of(ImpedanceCurve curve, double highestHz) {
    List<ImpedancePoint> kept =
        curve.points().stream().filter(point -> point.frequencyHz() <= highestHz).toList();
    return kept.isEmpty()
        ? Outcome.none(
            "the curve begins at "
                + curve.lowestHz()
                + " Hz; it must begin below "
                + highestHz
                + " Hz")
        : Outcome.found(new ImpedanceCurve(thinned(kept), curve.scaleUncertainty()));
  }

  private static List<ImpedancePoint> thinned(List<ImpedancePoint> points) {
    if (points.size() <= MOST) {
      return points;
    }
    int first = points.get(0).frequencyHz() == 0 ? 1 : 0;
    List<ImpedancePoint> thinned = new ArrayList<>(points.subList(0, first + 1));
    double lowestHz = points.get(first).frequencyHz();
    double highestHz = points.get(points.size() - 1).frequencyHz();
    double step = Math.pow(highestHz / lowestHz, 1.0 / (MOST - 1 - first));
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
