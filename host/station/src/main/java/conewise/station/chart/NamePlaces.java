package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds for each of some curves a place where it is by itself, so that its name can stand there.
 */
final class NamePlaces {
  /** A name needs no more room than this. */
  private static final double ENOUGH = 30;

  /** Names are this much wider than they are high. */
  private static final double FLATNESS = 1.5;

  /** No name stands within this part of a curve's ends, where the axes' numbers are. */
  private static final int EDGE = 12;

  private final List<List<double[]>> curves;
  private final List<double[]> taken = new ArrayList<>();

  /** Of curves through places at the same x. */
  NamePlaces(List<List<double[]>> curves) {
    this.curves = curves;
  }

  /** The place for a curve's name; later ones keep clear of it. */
  double[] next(int curve) {
    List<double[]> own = curves.get(curve);
    int best = own.size() / 2;
    double most = Double.NEGATIVE_INFINITY;
    int edge = own.size() / EDGE;
    for (int i = edge; i < own.size() - edge; i++) {
      double room = room(curve, i);
      if (room > most) {
        most = room;
        best = i;
      }
    }
    taken.add(own.get(best));
    return own.get(best);
  }

  private double room(int curve, int at) {
    double[] here = curves.get(curve).get(at);
    double fromCurves = ENOUGH;
    for (int other = 0; other < curves.size(); other++) {
      if (other != curve) {
        for (double[] place : curves.get(other)) {
          fromCurves = Math.min(fromCurves, distance(here, place));
        }
      }
    }
    double fromNames = 2 * ENOUGH;
    for (double[] place : taken) {
      fromNames = Math.min(fromNames, distance(here, place));
    }
    // Names over one another cannot be read at all.
    return fromCurves + (fromNames < ENOUGH ? 4 * (fromNames - ENOUGH) : 0) + fromNames / 8;
  }

  private static double distance(double[] a, double[] b) {
    return Math.hypot((a[0] - b[0]) / FLATNESS, a[1] - b[1]);
  }
}
