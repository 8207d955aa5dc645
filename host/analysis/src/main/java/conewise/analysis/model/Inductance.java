package conewise.analysis.model;

/**
 * What a voice coil in iron adds to its resistance: an inductance and a lossy part,
 *
 * <pre>Z = j w L + K (j w)^n
 * </pre>
 *
 * With L = 0 it is the form of W. M. Leach (J. Audio Eng. Soc. 50(6) 442, 2002); with K = 0 a plain
 * inductance. The sum follows coils whose part outside the iron is not small.
 *
 * @param henry L in henry, 0 for none
 * @param lossyOhm K in ohm at 1 rad/s, 0 for none
 * @param exponent n, above 0 (a resistance) up to 1 (an inductance); it is 1 where there is no
 *     inductance at all, so that all of these are equal
 */
public record Inductance(double henry, double lossyOhm, double exponent) {
  /** No inductance at all. */
  public static final Inductance NONE = new Inductance(0, 0, 1);

  public Inductance {
    Require.within("the inductance in henry", henry, 0, 10);
    Require.within("the lossy inductance in ohm at 1 rad/s", lossyOhm, 0, 100);
    Require.within("the exponent of the lossy inductance", exponent, 0.05, 1);
    if (henry == 0 && lossyOhm == 0) {
      exponent = 1;
    }
  }

  /** An inductance without loss, in henry. */
  public static Inductance plain(double henry) {
    return new Inductance(henry, 0, 1);
  }

  /**
   * A lossy one, K (j w)^n: K in ohm s^n, n from 0 to 1 (W. M. Leach, J. Audio Eng. Soc. 50(6),
   * 2002).
   */
  public static Inductance lossy(double lossyOhm, double exponent) {
    return new Inductance(0, lossyOhm, exponent);
  }
}
