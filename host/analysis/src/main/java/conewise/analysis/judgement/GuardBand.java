package conewise.analysis.judgement;

import conewise.analysis.outcome.Interval;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * Decides on a value whose interval is known (JCGM 106:2012, 8.3; the guard band is as wide as the
 * interval's arm, which leaves at most 2.5 % false accepts: ILAC-G8).
 */
public final class GuardBand {
  private GuardBand() {}

  /**
   * Pass when the whole interval lies within the limits, ends included; fail when all of it lies
   * outside; undecided between.
   */
  public static Decision decide(Interval interval, Interval limits) {
    if (limits.contains(interval)) {
      return Decision.PASS;
    }
    return limits.isApartFrom(interval) ? Decision.FAIL : Decision.UNDECIDED;
  }

  /**
   * The probability that a normally distributed quantity lies within limits (JCGM 106:2012, 7.3).
   *
   * @param value its mean
   * @param standardUncertainty its standard deviation, more than 0
   * @param limits either end may be infinite
   */
  public static double conformanceProbability(
      double value, double standardUncertainty, Interval limits) {
    NormalDistribution normal = new NormalDistribution(null, value, standardUncertainty);
    double below =
        limits.low() == Double.NEGATIVE_INFINITY ? 0 : normal.cumulativeProbability(limits.low());
    double notAbove =
        limits.high() == Double.POSITIVE_INFINITY ? 1 : normal.cumulativeProbability(limits.high());
    return notAbove - below;
  }
}
