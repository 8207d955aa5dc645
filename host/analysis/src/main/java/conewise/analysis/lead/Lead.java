package conewise.analysis.lead;

import conewise.analysis.model.Copper;

/**
 * A copper lead from an amplifier to a box: out by one conductor, back by the other.
 *
 * @param gauge of each conductor
 * @param lengthM from end to end, one way
 * @param celsius of the copper, -50 to 150
 */
public record Lead(Gauge gauge, double lengthM, double celsius) {
  /** Annealed copper at 20 degrees: 1/58 ohm mm2 / m (IEC 60028, from memory). */
  private static final double OHM_M_AT_20 = 1e-6 / 58;

  private static final double CONDUCTORS = 2;
  private static final double COLDEST = -50;
  private static final double HOTTEST = 150;

  public Lead {
    Positive.require("the length of a lead", lengthM, "m");
    if (!(celsius >= COLDEST && celsius <= HOTTEST)) {
      throw new IllegalArgumentException(
          "the temperature of a lead is "
              + celsius
              + " degrees Celsius; it must lie from "
              + COLDEST
              + " to "
              + HOTTEST);
    }
  }

  /** Resistance of both conductors together, in ohm. */
  public double ohm() {
    return CONDUCTORS * ohmOneWay();
  }

  /** Resistance of one conductor, in ohm. */
  public double ohmOneWay() {
    return OHM_M_AT_20 * Copper.factorAt(celsius) * lengthM / gauge.areaM2();
  }

  /** What it takes before a load, in ohm. */
  public LeadLoss before(double loadOhm) {
    return new LeadLoss(ohm(), loadOhm);
  }

  /**
   * The thinnest gauge that keeps a loss.
   *
   * @param lossDecibel at most this much lost at the load, above 0
   * @param loadOhm the load
   */
  public static Gauge thinnest(double lossDecibel, double loadOhm, double lengthM, double celsius) {
    Positive.require("the loss of a lead", lossDecibel, "dB");
    Positive.require("the load at a lead", loadOhm, "ohm");
    double mostOhm = loadOhm * Math.expm1(lossDecibel * Math.log(10) / 20);
    double ohmOfSquareMetre = new Lead(new Gauge(1), lengthM, celsius).ohm();
    return new Gauge(ohmOfSquareMetre / mostOhm);
  }
}
