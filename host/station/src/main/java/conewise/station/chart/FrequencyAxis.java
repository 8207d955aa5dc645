package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A logarithmic frequency axis.
 *
 * @param lowHz its left end, positive
 * @param highHz its right end, above {@code lowHz}
 */
record FrequencyAxis(double lowHz, double highHz) {
  private static final double[] STEPS = {1, 2, 5};
  private static final double SWEEP_END_HZ = 400;

  FrequencyAxis {
    if (!(lowHz > 0) || !(highHz > lowHz) || Double.isInfinite(highHz)) {
      throw new IllegalArgumentException(
          "a frequency axis cannot run from " + lowHz + " to " + highHz + " Hz");
    }
  }

  /** An axis for these ends; a single frequency gets an octave around it. */
  static FrequencyAxis around(double lowHz, double highHz) {
    double low = lowHz > 0 ? lowHz : Math.min(1, highHz > 0 ? highHz / 2 : 1);
    return highHz > low
        ? new FrequencyAxis(low, highHz)
        : new FrequencyAxis(low / Math.sqrt(2), low * Math.sqrt(2));
  }

  /** 0 at the left end, 1 at the right one; beyond for frequencies outside. */
  double position(double frequencyHz) {
    return Math.log(frequencyHz / lowHz) / Math.log(highHz / lowHz);
  }

  double frequencyHz(double position) {
    return lowHz * Math.pow(highHz / lowHz, position);
  }

  boolean holds(double frequencyHz) {
    return lowHz <= frequencyHz && frequencyHz <= highHz;
  }

  /**
   * The frequencies that bear a number: 1, 2 and 5 in each decade, and 400 Hz where the axis ends
   * there (10, 20, 50, 100, 200, 400 is the trade's habit for a box).
   */
  List<Double> ticksHz() {
    List<Double> ticks = new ArrayList<>();
    int first = (int) Math.floor(Math.log10(lowHz));
    int last = (int) Math.ceil(Math.log10(highHz));
    for (int decade = first; decade <= last; decade++) {
      for (double step : STEPS) {
        addIfHeld(ticks, step * Math.pow(10, decade));
      }
    }
    if (highHz < 500) {
      addIfHeld(ticks, SWEEP_END_HZ);
    }
    ticks.sort(null);
    return ticks;
  }

  /** The whole multiples of each decade that bear a thin line only. */
  List<Double> minorTicksHz() {
    List<Double> minor = new ArrayList<>();
    int first = (int) Math.floor(Math.log10(lowHz));
    int last = (int) Math.ceil(Math.log10(highHz));
    for (int decade = first; decade <= last; decade++) {
      for (int step = 1; step < 10; step++) {
        addIfHeld(minor, step * Math.pow(10, decade));
      }
    }
    minor.removeAll(ticksHz());
    return minor;
  }

  // A sweep that starts at 10.01 Hz still gets its 10 Hz tick: within a thousandth counts as held.
  private void addIfHeld(List<Double> ticks, double frequencyHz) {
    if (frequencyHz > lowHz * 0.999 && frequencyHz < highHz * 1.001) {
      ticks.add(frequencyHz);
    }
  }
}
