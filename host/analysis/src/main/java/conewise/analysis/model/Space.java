package conewise.analysis.model;

import java.util.OptionalDouble;

/**
 * An enclosed air space.
 *
 * @param name its name, unlike {@link #OUTSIDE}
 * @param volumeM3 net volume in cubic metres
 * @param absorptionQ quality of the lining's loss at {@link #LOSS_REFERENCE_HZ}: a resistance in
 *     series with the spring of the air (Small, J. Audio Eng. Soc. 21, 1973); empty for none
 */
public record Space(String name, double volumeM3, OptionalDouble absorptionQ) {
  /** The name of the free air around the box, whose pressure is taken as 0. */
  public static final String OUTSIDE = "outside";

  /** The frequency in hertz at which the qualities of lining and leak are stated. */
  public static final double LOSS_REFERENCE_HZ = 40;

  public Space {
    Require.named("a space", name);
    if (name.equals(OUTSIDE)) {
      throw new IllegalArgumentException("a space cannot be named " + OUTSIDE);
    }
    Require.positive("the volume of space " + name, volumeM3, "m3");
    absorptionQ.ifPresent(q -> Require.positive("the absorption Q of space " + name, q, ""));
  }

  /** A space without lining. */
  public Space(String name, double volumeM3) {
    this(name, volumeM3, OptionalDouble.empty());
  }

  /** The same space with a lining. */
  public Space lined(double quality) {
    return new Space(name, volumeM3, OptionalDouble.of(quality));
  }
}
