package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A logarithmic axis of ohm: a wrong join that multiplies the impedance only lifts a curve.
 *
 * @param lowOhm its lower end, positive
 * @param highOhm its upper end, above {@code lowOhm}
 */
record OhmScale(double lowOhm, double highOhm) {
  private static final double[] STEPS = {1, 2, 5};

  OhmScale {
    if (!(lowOhm > 0) || !(highOhm > lowOhm) || Double.isInfinite(highOhm)) {
      throw new IllegalArgumentException(
          "an axis of ohm cannot run from " + lowOhm + " to " + highOhm + " ohm");
    }
  }

  /** 0 at the lower end, 1 at the upper one; values outside are held at the ends. */
  double position(double ohm) {
    double held = Math.max(lowOhm, Math.min(highOhm, ohm));
    return Math.log(held / lowOhm) / Math.log(highOhm / lowOhm);
  }

  boolean holds(double ohm) {
    return lowOhm <= ohm && ohm <= highOhm;
  }

  /** 1, 2 and 5 in each decade. */
  List<Double> ticksOhm() {
    List<Double> ticks = new ArrayList<>();
    int last = (int) Math.ceil(Math.log10(highOhm));
    for (int decade = (int) Math.floor(Math.log10(lowOhm)); decade <= last; decade++) {
      for (double step : STEPS) {
        double tick = step * Math.pow(10, decade);
        if (tick >= lowOhm * 0.999 && tick <= highOhm * 1.001) {
          ticks.add(tick);
        }
      }
    }
    return ticks;
  }
}
