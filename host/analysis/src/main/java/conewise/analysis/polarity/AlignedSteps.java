package conewise.analysis.polarity;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.polarity.StepEdges.Edge;
import conewise.analysis.sampling.SampledChannel;
import java.util.List;

/** The sound around several steps, laid over one another with the sign of each. */
final class AlignedSteps {
  private static final double WINDOW_SECONDS = FirstHalfCycle.WINDOW_MILLISECONDS * 1e-3;

  /** The drive's own ramp, its filters and a coil's inductance take some tenths of this. */
  private static final double RAMP_SECONDS = 1e-3;

  /** What there is without a step is looked at over this long before each. */
  private static final double QUIET_SECONDS = 0.2;

  /** So many of the steps must have the sign of their mean. */
  private static final double LEAST_AGREEMENT = 0.75;

  /** What sets out first is at least this part of the largest that follows. */
  private static final double FIRST_SHARE = 0.2;

  /** And this many deviations from none. */
  private static final double FIRST_DEVIATIONS = 5;

  private final double[] sound;
  private final List<Edge> edges;
  private final int window;
  private final int ramp;
  private final int quiet;
  private final double[] mean;

  /** Lays steps over one another; the record {@link #reaches} around each. */
  AlignedSteps(SampledChannel channel, List<Edge> edges) {
    this.sound = channel.values();
    this.edges = edges;
    double interval = channel.intervalSeconds();
    window = Math.max(2, (int) Math.round(WINDOW_SECONDS / interval));
    ramp = Math.max(1, (int) Math.round(RAMP_SECONDS / interval));
    quiet = (int) Math.round(QUIET_SECONDS / interval);
    mean = new double[quiet + window];
    for (Edge edge : edges) {
      double share = (edge.up() ? 1.0 : -1.0) / edges.size();
      for (int k = 0; k < mean.length; k++) {
        mean[k] += share * sound[edge.index() - quiet + k];
      }
    }
  }

  /** True when the record goes far enough around a step. */
  static boolean reaches(SampledChannel channel, Edge edge) {
    double before = edge.index() * channel.intervalSeconds();
    double after = (channel.length() - edge.index()) * channel.intervalSeconds();
    return before > QUIET_SECONDS + channel.intervalSeconds()
        && after > WINDOW_SECONDS + 2 * channel.intervalSeconds();
  }

  /**
   * What they come to.
   *
   * @param stepAmpere by how much a step changes the current
   */
  Outcome<FirstHalfCycle> heard(double stepAmpere) {
    double noise = Math.max(1e-12, noise(this::rise));
    FirstHalfCycle heard = new FirstHalfCycle(rise(quiet), noise, edges.size(), stepAmpere);
    if (!heard.isSure()) {
      return Outcome.found(heard);
    }
    long agree = edges.stream().filter(edge -> rise(edge) > 0 == heard.rises()).count();
    if (agree < LEAST_AGREEMENT * edges.size()) {
      return Outcome.none(
          "Only "
              + agree
              + " of "
              + edges.size()
              + " steps have one sign. Keep the room quiet and hold the microphone still.");
    }
    if (first() > 0 != heard.rises()) {
      return Outcome.none(
          "The pressure turns within the first "
              + FirstHalfCycle.WINDOW_MILLISECONDS
              + " ms, so that its first half cycle cannot be told. Hold the microphone straight"
              + " before the middle of the cone.");
    }
    return Outcome.found(heard);
  }

  /** Mean after an instant of the mean step, less that before the ramp that leads to it. */
  private double rise(int instant) {
    return mean(mean, instant, window) - mean(mean, instant - ramp - window, window);
  }

  private double rise(Edge edge) {
    double rise =
        mean(sound, edge.index(), window) - mean(sound, edge.index() - ramp - window, window);
    return edge.up() ? rise : -rise;
  }

  private static double mean(double[] values, int from, int count) {
    double sum = 0;
    for (int k = from; k < from + count; k++) {
      sum += values[k];
    }
    return sum / count;
  }

  /** What stands out first, from the ramp on; 0 when nothing does. */
  private double first() {
    double rest = mean(mean, quiet - ramp - window, window);
    double largest = 0;
    for (int k = quiet - ramp; k < quiet + window; k++) {
      largest = Math.max(largest, Math.abs(mean[k] - rest));
    }
    double noise = noise(k -> mean[k] - mean(mean, k - window, window));
    double least = Math.max(FIRST_SHARE * largest, FIRST_DEVIATIONS * noise);
    for (int k = quiet - ramp; k < quiet + window; k++) {
      if (Math.abs(mean[k] - rest) >= least) {
        return mean[k] - rest;
      }
    }
    return 0;
  }

  /** A figure of the mean step at an instant of it. */
  private interface Figure {
    double at(int instant);
  }

  /** The effective value of a figure where there is no step. */
  private double noise(Figure figure) {
    double sum = 0;
    int count = 0;
    int apart = Math.max(1, window / 2);
    for (int k = 2 * window + ramp; k <= quiet - 2 * window - ramp; k += apart) {
      double value = figure.at(k);
      sum += value * value;
      count++;
    }
    return Math.sqrt(sum / Math.max(1, count));
  }
}
