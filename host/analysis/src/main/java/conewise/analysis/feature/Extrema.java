package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import java.util.ArrayList;
import java.util.List;

/**
 * The peaks and dips of |Z| over frequency. A turn counts when |Z| goes back by more than its
 * jitter explains; a rise that runs into an end of the range is no peak: it is reported as
 * unresolved.
 *
 * @param peaks in order of frequency
 * @param dips the resolved lows, in order of frequency; each lies between two peaks or between a
 *     peak and an end from which |Z| rises again
 * @param fallsFromLowEnd true when |Z| falls away from the lowest frequency: a peak may lie below
 * @param jitter standard deviation of ln |Z| from point to point
 */
public record Extrema(
    List<Extremum> peaks, List<Extremum> dips, boolean fallsFromLowEnd, double jitter) {

  /** Smallest step back of ln |Z| that makes a turn: what a smooth converter error may feign. */
  private static final double LEAST_TURN = 0.02;

  /** A turn in units of the jitter: the range of some 150 normal variables is 5.5 on average. */
  private static final double TURN_IN_JITTERS = 7;

  public Extrema {
    peaks = List.copyOf(peaks);
    dips = List.copyOf(dips);
  }

  /** Finds them. Curves of fewer than three points above 0 Hz have none. */
  public static Extrema of(ImpedanceCurve curve) {
    LogCurve log = LogCurve.of(curve);
    double turn = Math.max(LEAST_TURN, TURN_IN_JITTERS * log.jitter());
    List<Integer> turns = turns(log.y(), turn);
    List<Extremum> peaks = new ArrayList<>();
    List<Extremum> dips = new ArrayList<>();
    for (int k = 1; k + 1 < turns.size(); k++) {
      int here = turns.get(k);
      double before = log.y()[here] - log.y()[turns.get(k - 1)];
      double after = log.y()[here] - log.y()[turns.get(k + 1)];
      double prominence = Math.exp(Math.min(Math.abs(before), Math.abs(after)));
      (before > 0 ? peaks : dips).add(LocalParabola.at(log, here, turn).extremum(prominence));
    }
    boolean falls =
        turns.size() > 1 && log.y()[turns.get(0)] > log.y()[turns.get(1)] && turns.get(0) == 0;
    return new Extrema(peaks, dips, falls, log.jitter());
  }

  /** The heights of the peaks of a smooth, noiseless run of ln |Z|, its ends not counted. */
  static List<Double> peaksIn(double[] y) {
    List<Integer> turns = turns(y, LEAST_TURN / 2);
    List<Double> peaks = new ArrayList<>();
    for (int k = 1; k + 1 < turns.size(); k++) {
      if (y[turns.get(k)] > y[turns.get(k + 1)]) {
        peaks.add(y[turns.get(k)]);
      }
    }
    return peaks;
  }

  /** Places of alternating highs and lows, ends included, each more than {@code turn} apart. */
  private static List<Integer> turns(double[] y, double turn) {
    List<Integer> turns = new ArrayList<>();
    int high = 0;
    int low = 0;
    int direction = 0;
    for (int i = 1; i < y.length; i++) {
      high = y[i] > y[high] ? i : high;
      low = y[i] < y[low] ? i : low;
      if (direction >= 0 && y[high] - y[i] > turn) {
        turns.add(high);
        direction = -1;
        low = i;
        high = i;
      } else if (direction <= 0 && y[i] - y[low] > turn) {
        turns.add(low);
        direction = 1;
        high = i;
        low = i;
      }
    }
    if (direction != 0) {
      turns.add(direction > 0 ? high : low);
    }
    return turns;
  }
}
