package conewise.analysis.plan;

import conewise.analysis.model.Air;

/**
 * A duct by its size, and what it tunes a space to: f = c / (2 pi) sqrt(S / (V L)), with L the
 * duct's length and what its two ends add (H. Helmholtz, 1860; L. L. Beranek, Acoustics, 1954, ch.
 * 5, from memory).
 *
 * @param areaM2 cross section of one duct in square metres
 * @param lengthM its length in metres
 * @param count how many like ducts there are
 * @param inner the end in the box
 * @param outer the end outside
 * @param alongWall true where one side of the duct is a wall of the box, which acts as a mirror
 */
public record VentSize(
    double areaM2, double lengthM, int count, End inner, End outer, boolean alongWall) {

  /** What surrounds an end of a duct. */
  public enum End {
    /** A free pipe end: 0.6133 radii (H. Levine and J. Schwinger, Phys. Rev. 73, 1948). */
    FREE(0.6133),
    /** Flush with a wide baffle: 8 / (3 pi) radii (Lord Rayleigh, Theory of Sound, app. A). */
    FLANGED(8 / (3 * Math.PI));

    private final double radii;

    End(double radii) {
      this.radii = radii;
    }
  }

  public VentSize {
    require("the cross section of a vent in m2", areaM2);
    require("the length of a vent in m", lengthM);
    require("the number of like vents", count);
  }

  /** A round duct. */
  public static VentSize round(double diameterM, double lengthM, int count, End inner, End outer) {
    return new VentSize(Math.PI * diameterM * diameterM / 4, lengthM, count, inner, outer, false);
  }

  private static void require(String what, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(what + " is " + value + "; it must be finite and above 0");
    }
  }

  /** Its length with both end corrections, in metres. */
  public double effectiveLengthM() {
    double mirrored = alongWall ? 2 : 1;
    double radius = Math.sqrt(mirrored * areaM2 / Math.PI);
    return lengthM + (inner.radii + outer.radii) * radius;
  }

  /**
   * What all of them together tune a space to, in hertz.
   *
   * @param volumeM3 net volume of the space, in cubic metres
   */
  public double tuningHz(double volumeM3, Air air) {
    return air.soundMPerS()
        / (2 * Math.PI)
        * Math.sqrt(count * areaM2 / (volumeM3 * effectiveLengthM()));
  }

  /**
   * The length that gives a tuning, in metres; 0 or less where even a hole is too long.
   *
   * @param tuningHz wanted, in hertz
   */
  public double lengthForM(double tuningHz, double volumeM3, Air air) {
    double speed = air.soundMPerS() / (2 * Math.PI * tuningHz);
    return count * areaM2 * speed * speed / volumeM3 - (effectiveLengthM() - lengthM);
  }
}
