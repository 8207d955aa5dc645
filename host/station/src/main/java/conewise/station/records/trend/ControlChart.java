package conewise.station.records.trend;

import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A chart of single values with limits from their moving range (NIST/SEMATECH e-Handbook of
 * Statistical Methods, 6.3.2.2): mean plus and minus 3 times the mean moving range over 1.128,
 * which is 2.66 mean moving ranges. The limits say what the process does by itself; they are no
 * tolerance.
 *
 * @param figures in order of time
 * @param mean of the figures that the limits rest on
 * @param meanMovingRange mean step from one to the next of them
 * @param low lower limit
 * @param high upper limit
 * @param baseline how many figures the limits rest on, from the first
 * @param signals what is unlike chance, in order
 */
public record ControlChart(
    List<ReadFigure> figures,
    double mean,
    double meanMovingRange,
    double low,
    double high,
    int baseline,
    List<Signal> signals) {
  /** Fewer give no limits. */
  public static final int FEWEST = 8;

  /** Mean range of two values of a normal distribution, in standard deviations (6.3.2.2). */
  private static final double MEAN_RANGE_OF_TWO = 1.128;

  /** So many in a row on one side of the mean are no chance (6.3.2, Western Electric rules). */
  private static final int RUN = 8;

  /** Figures nearer to one another than this, relative to their size, differ by rounding alone. */
  private static final double ROUNDING = 1e-9;

  /** What may be unlike chance. */
  public enum Kind {
    /** Beyond a limit. */
    BEYOND,
    /** The eighth or a later one in a row on one side of the mean. */
    SHIFTED
  }

  /**
   * A figure that is unlike chance.
   *
   * @param place of the figure, from 0
   * @param kind in which way
   */
  public record Signal(int place, Kind kind) {}

  public ControlChart {
    figures = List.copyOf(figures);
    signals = List.copyOf(signals);
  }

  /**
   * The chart.
   *
   * @param figures in order of time
   * @param baseline the limits rest on the first so many; all of them where there are fewer
   * @return no result with fewer than {@link #FEWEST} figures
   */
  public static Outcome<ControlChart> of(List<ReadFigure> figures, int baseline) {
    int base = Math.min(baseline, figures.size());
    if (base < FEWEST) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "limits need at least %d boxes with this figure and there are %d",
              FEWEST,
              base));
    }
    double[] values = figures.stream().mapToDouble(ReadFigure::value).toArray();
    double mean = 0;
    double range = 0;
    for (int i = 0; i < base; i++) {
      mean += values[i] / base;
      range += i == 0 ? 0 : Math.abs(values[i] - values[i - 1]) / (base - 1);
    }
    double arm = 3 * range / MEAN_RANGE_OF_TWO;
    List<Signal> signals = signals(values, mean, arm);
    return Outcome.found(
        new ControlChart(figures, mean, range, mean - arm, mean + arm, base, signals));
  }

  private static List<Signal> signals(double[] values, double mean, double arm) {
    List<Signal> signals = new ArrayList<>();
    double rounding = ROUNDING * Math.abs(mean);
    int run = 0;
    double side = 0;
    for (int i = 0; i < values.length; i++) {
      double off = Math.abs(values[i] - mean) <= rounding ? 0 : values[i] - mean;
      double here = Math.signum(off);
      run = here != 0 && here == side ? run + 1 : here == 0 ? 0 : 1;
      side = here;
      if (Math.abs(off) > arm) {
        signals.add(new Signal(i, Kind.BEYOND));
      } else if (run >= RUN) {
        signals.add(new Signal(i, Kind.SHIFTED));
      }
    }
    return signals;
  }
}
