package conewise.simulator.analog;

import java.util.SplittableRandom;

/** What a room adds to what a microphone hears: white noise, and slow air of first order. */
final class RoomNoise {
  private static final double RUMBLE_HZ = 20;

  private final Microphone microphone;
  private final SplittableRandom random;
  private final double keeps;
  private double rumble;

  RoomNoise(Microphone microphone, double tickSeconds, SplittableRandom random) {
    this.microphone = microphone;
    this.random = random;
    keeps = StrictMath.exp(-2 * Math.PI * RUMBLE_HZ * tickSeconds);
    if (microphone.rumblePa() > 0) {
      rumble = microphone.rumblePa() * random.nextGaussian();
    }
  }

  /** A tick passes. */
  void tick() {
    if (microphone.rumblePa() > 0) {
      double fresh = Math.sqrt(1 - keeps * keeps) * microphone.rumblePa();
      rumble = keeps * rumble + fresh * random.nextGaussian();
    }
  }

  /** As the channel sees it, in pascal by the microphone's nominal gain. */
  double pascal() {
    double white = microphone.noisePa() > 0 ? microphone.noisePa() * random.nextGaussian() : 0;
    return microphone.gain() * (white + rumble);
  }
}
