package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import java.util.List;

/**
 * What of a curve a running sweep can show. It is for eyes: a result comes from {@link SweepResult}
 * alone.
 *
 * @param standing what the points are
 * @param points corrected, in order of frequency; none where nothing is known yet
 * @param scaleUncertainty relative standard uncertainty common to all points
 */
public record CurveSoFar(Standing standing, List<ImpedancePoint> points, double scaleUncertainty) {

  /** Nothing is known yet. */
  public static final CurveSoFar NONE = new CurveSoFar(Standing.NOTHING, List.of(), 0);

  /** What the points are. */
  public enum Standing {
    /** There is none. */
    NOTHING,
    /** All points at once, each from a part of its record; they may still move. */
    ESTIMATED,
    /** Each point is measured, and more will come. */
    GROWING,
    /** The curve is measured. */
    MEASURED
  }

  /** Copies the list. */
  public CurveSoFar {
    points = List.copyOf(points);
  }

  /** A curve of some standing; nothing where there is no curve. */
  public static CurveSoFar of(Standing standing, Outcome<ImpedanceCurve> curve) {
    return curve instanceof Outcome.Found<ImpedanceCurve> found
        ? new CurveSoFar(standing, found.value().points(), found.value().scaleUncertainty())
        : NONE;
  }
}
