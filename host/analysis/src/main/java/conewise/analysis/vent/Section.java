package conewise.analysis.vent;

/**
 * The cross section of one duct, with the air that a mouth of that shape carries along in front of
 * it: the end correction, a length of duct that holds as much.
 *
 * <p>For a mouth in a wide baffle it follows from Rayleigh's integral where the mouth is small
 * against the wavelength: the mean of 1 / r over all pairs of points of the mouth, times its area,
 * over 2 pi (Lord Rayleigh, The Theory of Sound, vol. 2, 302 and 312).
 */
public sealed interface Section {

  /**
   * A round one.
   *
   * @param diameterM inner diameter, in metres, positive
   */
  record Round(double diameterM) implements Section {
    public Round {
      Sizes.require("the diameter of a vent", diameterM);
    }

    @Override
    public double areaM2() {
      return Math.PI * diameterM * diameterM / 4;
    }

    /** 8 / (3 pi) radii (Rayleigh, as above). */
    @Override
    public double flangedM() {
      return 8 / (3 * Math.PI) * diameterM / 2;
    }

    /**
     * The first two terms of the mean of 1 / r between two discs in one plane, for which the mean
     * over a disc of radius a of a function is its value and a2 / 8 times its Laplacian (derived).
     * For discs that touch, the terms left out are 2.4 % of it.
     */
    @Override
    public double imageM(double gapM) {
      double apart = diameterM + 2 * gapM;
      double radii = diameterM / 2 / apart;
      return areaM2() / (2 * Math.PI * apart) * (1 + radii * radii / 4);
    }
  }

  /**
   * A rectangle.
   *
   * @param widthM along the wall or floor that it may lie near
   * @param heightM away from it
   */
  record Slot(double widthM, double heightM) implements Section {
    public Slot {
      Sizes.require("the width of a vent", widthM);
      Sizes.require("the height of a vent", heightM);
    }

    @Override
    public double areaM2() {
      return widthM * heightM;
    }

    @Override
    public double flangedM() {
      return pairs(heightM) / (2 * Math.PI * areaM2());
    }

    /** Exact: what the two have together with the gap between them, less what is no pair of two. */
    @Override
    public double imageM(double gapM) {
      double gap = 2 * gapM;
      double between =
          (pairs(2 * heightM + gap) - 2 * pairs(heightM + gap) + (gap == 0 ? 0 : pairs(gap))) / 2;
      return between / (2 * Math.PI * areaM2());
    }

    /** The integral of 1 / r over all pairs of points of a rectangle as wide as this (derived). */
    private double pairs(double high) {
      double wide = widthM;
      double diagonal = Math.hypot(wide, high);
      return 2
              * wide
              * high
              * (wide * Math.log((high + diagonal) / wide)
                  + high * Math.log((wide + diagonal) / high))
          + 2.0 / 3 * (wide * wide * wide + high * high * high - diagonal * diagonal * diagonal);
    }
  }

  /** Its area in square metres. */
  double areaM2();

  /** The end correction of a mouth of this shape flush with a wide baffle, in metres. */
  double flangedM();

  /**
   * What a wall, floor or ceiling beside such a mouth adds, in metres: by it the mouth has a mirror
   * image that pushes against the same air.
   *
   * @param gapM from the edge of the mouth to the wall, 0 or more
   */
  double imageM(double gapM);
}
