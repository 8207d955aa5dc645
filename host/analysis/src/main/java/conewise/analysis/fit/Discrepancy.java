package conewise.analysis.fit;

/**
 * What a model may be off beyond noise, after Kennedy and O'Hagan, J. R. Stat. Soc. B 63(3), 2001.
 * The first two are relative to |Z|: a part that is its own at every point (a converter's steps)
 * and a smooth part that neighbouring frequencies share. The others let a driver's suspension and
 * coil depart from their formulas by relaxations spread along frequency, each of a random strength:
 * a change of the logarithm of the impedance with the phase that belongs to it.
 *
 * @param scattered standard deviation of the part that each point has for itself
 * @param smooth standard deviation of the smooth part
 * @param suspension standard deviation of the strength of the suspension's relaxations in each
 *     octave; it is as its formula says at the driver's resonance, so that resonance and Q are what
 *     they are there
 * @param coil the same of the coil's inductive impedance, which is as its formula says at 200 Hz
 */
public record Discrepancy(double scattered, double smooth, double suspension, double coil) {
  /** A model that is exact. */
  public static final Discrepancy NONE = new Discrepancy(0, 0, 0, 0);

  /**
   * What real drivers and converters are usually off, at least (found by the tests' other worlds).
   */
  public static final Discrepancy USUAL = new Discrepancy(0, 0.003, 0.02, 0.7);

  /**
   * The same of a whole box whose faults are weighed: walls, linings and standing waves do more
   * than any model says, and a fault must not be found in that.
   */
  public static final Discrepancy OF_BUILT_BOXES = new Discrepancy(0, 0.008, 0.02, 0.7);

  public Discrepancy {
    double sum = scattered + smooth + suspension + coil;
    if (!(scattered >= 0 && smooth >= 0 && suspension >= 0 && coil >= 0)
        || Double.isInfinite(sum)) {
      throw new IllegalArgumentException(
          "the discrepancy's parts are "
              + scattered
              + ", "
              + smooth
              + ", "
              + suspension
              + " and "
              + coil
              + "; all must be finite and not negative");
    }
  }
}
