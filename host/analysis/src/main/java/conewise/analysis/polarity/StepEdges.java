package conewise.analysis.polarity;

import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.List;

/** Finds the steps in a voltage: where its mean over half a millisecond and more changes most. */
final class StepEdges {

  /**
   * A step.
   *
   * @param index the sample at its middle
   * @param up true when the voltage rises
   */
  record Edge(int index, boolean up) {}

  /** Means are taken over this, on either side. */
  private static final double MEAN_SECONDS = 0.8e-3;

  /** Steps stand at least this far apart. */
  private static final double APART_SECONDS = 0.1;

  /** A smaller change than this part of the largest is none of the steps. */
  private static final double LEAST_SHARE = 0.5;

  private final double[] change;
  private final int apart;

  private StepEdges(SampledChannel voltage) {
    double[] values = voltage.values();
    int reach = Math.max(1, (int) Math.round(MEAN_SECONDS / voltage.intervalSeconds()));
    apart = (int) Math.round(APART_SECONDS / voltage.intervalSeconds());
    change = new double[values.length];
    for (int k = reach; k + reach < values.length; k++) {
      double sum = 0;
      for (int i = 1; i <= reach; i++) {
        sum += values[k + i] - values[k - i];
      }
      change[k] = sum / reach;
    }
  }

  /**
   * The steps of a voltage in the order of time.
   *
   * @param leastVolt no step is smaller
   */
  static List<Edge> of(SampledChannel voltage, double leastVolt) {
    return new StepEdges(voltage).edges(leastVolt);
  }

  private List<Edge> edges(double leastVolt) {
    double largest = 0;
    for (double each : change) {
      largest = Math.max(largest, Math.abs(each));
    }
    double least = Math.max(leastVolt, LEAST_SHARE * largest);
    List<Edge> edges = new ArrayList<>();
    int k = 0;
    while (k < change.length) {
      if (Math.abs(change[k]) < least) {
        k++;
        continue;
      }
      int top = highest(k);
      edges.add(new Edge(top, change[top] > 0));
      k = top + apart;
    }
    return edges;
  }

  /** The largest change from here to where the next step may stand. */
  private int highest(int from) {
    int top = from;
    for (int k = from; k < Math.min(change.length, from + apart / 4); k++) {
      if (Math.abs(change[k]) >= Math.abs(change[top])) {
        top = k;
      }
    }
    return top;
  }
}
