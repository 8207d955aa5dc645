package conewise.analysis.lead;

import java.util.Locale;

/**
 * How thick a conductor is, by its cross section of metal.
 *
 * @param areaM2 in square metres; of stranded wire that of all strands together
 */
public record Gauge(double areaM2) {
  /** American wire gauge 4/0, 3/0, 2/0 and 1/0 are -3, -2, -1 and 0. */
  public static final int THICKEST_AWG = -3;

  public static final int THINNEST_AWG = 40;

  /** AWG 36 is 0.005 inch thick, AWG 4/0 0.46 inch, and 39 like steps lie between (ASTM B258). */
  private static final double AWG_36_M = 0.127e-3;

  private static final double RATIO = 92;
  private static final double STEPS = 39;
  private static final int REFERENCE = 36;

  public Gauge {
    Positive.require("the cross section of a wire", areaM2, "m2");
  }

  /** A solid round wire. */
  public static Gauge ofDiameter(double diameterM) {
    Positive.require("the diameter of a wire", diameterM, "m");
    return new Gauge(Math.PI * diameterM * diameterM / 4);
  }

  /**
   * An American wire gauge.
   *
   * @param number -3 (4/0) to 40
   */
  public static Gauge awg(int number) {
    if (number < THICKEST_AWG || number > THINNEST_AWG) {
      throw new IllegalArgumentException(
          "the wire gauge is AWG "
              + number
              + "; it must lie from -3, which is 4/0, to "
              + THINNEST_AWG);
    }
    return ofDiameter(AWG_36_M * Math.pow(RATIO, (REFERENCE - number) / STEPS));
  }

  /** Diameter of a solid round wire of this section, in metres. */
  public double diameterM() {
    return Math.sqrt(4 * areaM2 / Math.PI);
  }

  /** Where it lies among the American wire gauges; a whole number is one of them. */
  public double awg() {
    return REFERENCE - STEPS * Math.log(diameterM() / AWG_36_M) / Math.log(RATIO);
  }

  /** As the gauges are written: {@code 14 AWG}, {@code 2/0 AWG}. */
  public static String written(int awg) {
    return awg > 0 ? awg + " AWG" : String.format(Locale.ROOT, "%d/0 AWG", 1 - awg);
  }
}
