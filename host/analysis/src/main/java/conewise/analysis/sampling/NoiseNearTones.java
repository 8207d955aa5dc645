package conewise.analysis.sampling;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/**
 * The noise next to each tone, seen in the residuals on the nearest lines of the record that no
 * tone occupies.
 */
final class NoiseNearTones {

  /** Lines looked at for each tone: enough for a mean, few enough to be near. */
  private static final int LINES = 8;

  /**
   * The 99 % point of chi-squared with 2 x 8 degrees of freedom (32.00, from any table), over 16:
   * the mean of 8 lines of white noise exceeds the overall mean by more than this once in a
   * hundred.
   */
  private static final double BEYOND_CHANCE = 2.0;

  /** Lines looked through at most on each side. */
  private static final int REACH = 40;

  /** A line nearer to a tone than this was emptied by fitting the tone: it shows no noise. */
  private static final double CLEAR = 0.9;

  private final double[] residuals;
  private final double intervalSeconds;
  private final double[] tonesInLines;
  private final double overallVariance;
  private final Map<Integer, Double> power = new HashMap<>();

  NoiseNearTones(
      double[] residuals, double intervalSeconds, double[] frequenciesHz, double overallVariance) {
    this.residuals = residuals;
    this.intervalSeconds = intervalSeconds;
    this.overallVariance = overallVariance;
    double durationSeconds = residuals.length * intervalSeconds;
    tonesInLines = Arrays.stream(frequenciesHz).map(f -> f * durationSeconds).sorted().toArray();
  }

  /**
   * The variance of white noise as strong as that next to a tone: the mean over the nearest free
   * lines where this is larger than chance allows, else the overall variance.
   */
  double varianceNear(double frequencyHz) {
    double line = frequencyHz * residuals.length * intervalSeconds;
    int centre = (int) Math.rint(line);
    double sum = 0;
    int seen = 0;
    for (int away = 1; away <= REACH && seen < LINES; away++) {
      for (int side = -away; side <= away && seen < LINES; side += 2 * away) {
        if (isFree(centre + side)) {
          sum += power.computeIfAbsent(centre + side, this::powerAt);
          seen++;
        }
      }
    }
    double near = seen < LINES ? 0 : sum / LINES;
    return near > BEYOND_CHANCE * overallVariance ? near : overallVariance;
  }

  private boolean isFree(int line) {
    if (line < 1 || 2 * line >= residuals.length) {
      return false;
    }
    int place = Arrays.binarySearch(tonesInLines, line);
    if (place >= 0) {
      return false;
    }
    int above = -place - 1;
    boolean clearAbove = above == tonesInLines.length || tonesInLines[above] - line > CLEAR;
    return clearAbove && (above == 0 || line - tonesInLines[above - 1] > CLEAR);
  }

  private double powerAt(int line) {
    double radians = 2 * Math.PI * line / residuals.length;
    double modulus = new Projection(residuals.length, radians).of(residuals).abs();
    return modulus * modulus / residuals.length;
  }
}
