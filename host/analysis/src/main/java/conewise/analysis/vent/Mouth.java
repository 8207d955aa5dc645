package conewise.analysis.vent;

import java.util.OptionalDouble;

/**
 * One end of a duct: what surrounds it, and whether a wall or floor lies beside it.
 *
 * @param surround what the mouth opens from
 * @param wallGapM from the mouth's edge to a wall, floor or ceiling parallel to the duct, 0 where
 *     they touch; empty where none is near
 */
public record Mouth(Surround surround, OptionalDouble wallGapM) {

  /** What a mouth opens from. */
  public enum Surround {
    /**
     * The bare end of a pipe: 0.6133 radii where it is round (H. Levine and J. Schwinger, Phys.
     * Rev. 73, 1948). Other shapes, and mouths beside a wall, are taken to have the same part of
     * what they have in a baffle (an assumption; common practice).
     */
    FREE(0.6133 * 3 * Math.PI / 8),
    /** Flush with a baffle that is wide against the mouth. */
    FLANGED(1);

    private final double part;

    Surround(double part) {
      this.part = part;
    }
  }

  public Mouth {
    if (wallGapM.isPresent()
        && !(wallGapM.getAsDouble() >= 0 && Double.isFinite(wallGapM.getAsDouble()))) {
      throw new IllegalArgumentException(
          "the gap from a vent to a wall is "
              + wallGapM.getAsDouble()
              + " m; it must be finite and not below 0");
    }
  }

  /** One with nothing beside it. */
  public static Mouth of(Surround surround) {
    return new Mouth(surround, OptionalDouble.empty());
  }

  /** The same with a wall or floor beside it. */
  public Mouth beside(double gapM) {
    return new Mouth(surround, OptionalDouble.of(gapM));
  }

  /** The length that the air about it adds to a duct of a section, in metres. */
  public double correctionM(Section section) {
    double image = wallGapM.isPresent() ? section.imageM(wallGapM.getAsDouble()) : 0;
    return surround.part * (section.flangedM() + image);
  }

  /** How much of what it has in a baffle air that a neighbour pushes counts for. */
  double part() {
    return surround.part;
  }
}
