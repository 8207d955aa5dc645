package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

import java.util.Optional;

/**
 * The microphone on the optional channel: a rise of pressure raises its voltage. Sound takes no
 * time here, and wavelengths are long against the box.
 *
 * <p>Away from the box it hears one small source in free air: p = density / (4 pi r) x acceleration
 * of volume (the monopole, e.g. L. L. Beranek, Acoustics, 1954, ch. 4; from memory). Before a
 * driver, on the axis of its cone, it hears a flat piston of radius b in a wall: p = density x
 * acceleration x (sqrt(r^2 + b^2) - r), and each other opening of the box as a small source in that
 * wall: p = density / (2 pi d) x acceleration of volume (both are Rayleigh's integral for long
 * waves; Theory of Sound, section 278; from memory).
 *
 * @param distanceM distance from the box, or from the cone that it is before
 * @param gain relative to nominal; negative if its leads are swapped; 0 if there is none
 * @param before the driver that it is held before; none: away from the box
 * @param othersM how far it is then from every other opening of the box
 * @param couplingHz corner of the capacitor in series with it, first order; 0 for none
 * @param noisePa room noise, white over the channel's samples, effective
 * @param rumblePa room noise below 20 Hz, effective
 */
public record Microphone(
    double distanceM,
    double gain,
    Optional<String> before,
    double othersM,
    double couplingHz,
    double noisePa,
    double rumblePa) {
  /** A microphone at 30 cm. */
  public static final Microphone NEAR = new Microphone(0.3, 1);

  private static final double OTHERS_M = 0.4;

  /** Checks the values. */
  public Microphone {
    require("distance of the microphone", distanceM, 0.001, 100, "m");
    require("gain of the microphone", gain, -100, 100, "");
    require("distance of the microphone from other openings", othersM, 0.01, 100, "m");
    require("coupling of the microphone", couplingHz, 0, 1000, "Hz");
    require("noise at the microphone", noisePa, 0, 100, "Pa");
    require("rumble at the microphone", rumblePa, 0, 100, "Pa");
  }

  /** A microphone away from the box, in a silent room, coupled down to zero frequency. */
  public Microphone(double distanceM, double gain) {
    this(distanceM, gain, Optional.empty(), OTHERS_M, 0, 0, 0);
  }

  /** The same microphone held before a driver. */
  public Microphone before(String driver, double distanceFromConeM) {
    return new Microphone(
        distanceFromConeM, gain, Optional.of(driver), othersM, couplingHz, noisePa, rumblePa);
  }

  /** The same with another gain: negative for swapped leads, 0 for a pulled plug. */
  public Microphone withGain(double other) {
    return new Microphone(distanceM, other, before, othersM, couplingHz, noisePa, rumblePa);
  }

  /** The same with other openings elsewhere. */
  public Microphone withOthersAt(double metres) {
    return new Microphone(distanceM, gain, before, metres, couplingHz, noisePa, rumblePa);
  }

  /** The same through a capacitor. */
  public Microphone coupledFrom(double cornerHz) {
    return new Microphone(distanceM, gain, before, othersM, cornerHz, noisePa, rumblePa);
  }

  /** The same in another room. */
  public Microphone inNoise(double whitePa, double lowPa) {
    return new Microphone(distanceM, gain, before, othersM, couplingHz, whitePa, lowPa);
  }
}
