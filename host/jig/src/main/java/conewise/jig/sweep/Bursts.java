package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.ToneFit;
import java.util.Arrays;

/**
 * Finds a hit in the record of a single tone: a short stretch whose residuals stand far above those
 * of the rest. A slammed door, a knock on the box and a jumping contact look like this.
 */
final class Bursts {

  /**
   * Stretches that a record is cut into at most: about 8 ms each in a record of a quarter second.
   */
  private static final int STRETCHES_MAX = 32;

  /** With fewer there is no telling what the usual power is. */
  private static final int STRETCHES_MIN = 8;

  /**
   * A stretch of 64 white samples strays from the true power by 18 % (the root of 2/64), so five
   * times the median power is never met by chance; leakage of hum stays below it too.
   */
  private static final int SAMPLES_MIN = 64;

  private static final double POWER_OVER_MEDIAN = 5;

  private Bursts() {}

  /** True when something hit the record of this estimate. */
  static boolean hit(Outcome<ImpedanceEstimate> estimate) {
    return estimate instanceof Outcome.Found<ImpedanceEstimate> found
        && worstRatio(found.value()) > POWER_OVER_MEDIAN;
  }

  /** The power of the worst stretch over the median one's, the worse of the two channels. */
  static double worstRatio(ImpedanceEstimate estimate) {
    return Math.max(worstRatio(estimate.voltage()), worstRatio(estimate.current()));
  }

  private static double worstRatio(ToneFit fit) {
    double[] residuals = fit.residuals();
    int stretches = Math.min(STRETCHES_MAX, residuals.length / SAMPLES_MIN);
    if (stretches < STRETCHES_MIN) {
      return 0;
    }
    int length = residuals.length / stretches;
    double[] powers = new double[stretches];
    for (int stretch = 0; stretch < stretches; stretch++) {
      for (int k = stretch * length; k < (stretch + 1) * length; k++) {
        powers[stretch] += residuals[k] * residuals[k];
      }
    }
    Arrays.sort(powers);
    double median = powers[stretches / 2];
    return median > 0 ? powers[stretches - 1] / median : 0;
  }
}
