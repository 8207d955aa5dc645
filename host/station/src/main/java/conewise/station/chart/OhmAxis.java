package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;

/**
 * A linear axis from zero with round steps.
 *
 * @param stepOhm the spacing of the ticks, positive
 * @param steps how many of them, at least 1
 */
record OhmAxis(double stepOhm, int steps) {
  private static final int MOST_STEPS = 6;
  private static final double[] ROUND = {1, 2, 5, 10};

  /** An axis that holds every value from 0 to the largest given. */
  static OhmAxis upTo(double largestOhm) {
    double largest = largestOhm > 1e-6 ? Math.min(largestOhm, 1e12) : 1;
    double decade = Math.pow(10, Math.floor(Math.log10(largest / MOST_STEPS)));
    for (double round : ROUND) {
      int steps = (int) Math.ceil(largest / (round * decade) - 1e-9);
      if (steps <= MOST_STEPS) {
        return new OhmAxis(round * decade, Math.max(1, steps));
      }
    }
    throw new AssertionError("a round step always holds " + largestOhm);
  }

  /** The same with half as many steps, for a scale that runs as far below zero as above. */
  static OhmAxis halfUpTo(double largest) {
    OhmAxis fine = upTo(largest);
    return fine.steps <= MOST_STEPS / 2
        ? fine
        : new OhmAxis(2 * fine.stepOhm, (fine.steps + 1) / 2);
  }

  double topOhm() {
    return stepOhm * steps;
  }

  /** 0 at the bottom, 1 at the top; values outside are held at the edge. */
  double position(double ohm) {
    return Math.max(0, Math.min(1, ohm / topOhm()));
  }

  List<Double> ticksOhm() {
    List<Double> ticks = new ArrayList<>();
    for (int i = 0; i <= steps; i++) {
      ticks.add(i * stepOhm);
    }
    return ticks;
  }
}
