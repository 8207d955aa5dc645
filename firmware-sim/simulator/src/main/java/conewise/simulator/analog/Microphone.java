package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

/**
 * The microphone on the optional channel. It hears the box as one small source in free air: p =
 * density / (4 pi r) x acceleration of volume (the monopole, e.g. L. L. Beranek, Acoustics, 1954,
 * ch. 4; from memory), without the time that sound takes.
 *
 * @param distanceM distance from the box
 * @param gain relative to nominal; negative if its leads are swapped; 0 if there is none
 */
public record Microphone(double distanceM, double gain) {
  /** A microphone at 30 cm. */
  public static final Microphone NEAR = new Microphone(0.3, 1);

  /** Checks the values. */
  public Microphone {
    require("distance of the microphone", distanceM, 0.01, 100, "m");
    require("gain of the microphone", gain, -100, 100, "");
  }
}
