package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;
import static conewise.simulator.dynamics.Limits.requirePositive;

import java.util.List;

/**
 * What a jig states about its own hardware: nominal values, as printed on its parts.
 *
 * @param clockHz clock of the board
 * @param tickCycles clock cycles in a tick; a tick is tickCycles / clockHz seconds
 * @param driveBits width of the wave output
 * @param converterBits width of the converter
 * @param levelMax highest peak of a wave around mid-scale, in drive steps
 * @param voltPerLevel bridge voltage of one drive step without load
 * @param senseOhm sense resistor
 * @param channels converter channels in the order in which they are read
 */
public record JigHardware(
    long clockHz,
    int tickCycles,
    int driveBits,
    int converterBits,
    int levelMax,
    double voltPerLevel,
    double senseOhm,
    List<Channel> channels) {

  /**
   * One converter channel: unit = (code - offsetCode) x perCode.
   *
   * @param number 0 voltage, 1 current, 2 optional input
   * @param name one word
   * @param unit V, A or Pa
   * @param offsetCode the code of zero
   * @param perCode units a code
   * @param delayNanoseconds how long after the frame's instant the channel is sampled
   */
  public record Channel(
      int number,
      String name,
      String unit,
      double offsetCode,
      double perCode,
      long delayNanoseconds) {}

  /** Checks that each constant is positive and the list of channels is not empty. */
  public JigHardware {
    requirePositive("clock", (double) clockHz, "Hz");
    requirePositive("tick", tickCycles, "cycles");
    require("drive width", driveBits, 2, 16, "bits");
    require("converter width", converterBits, 2, 16, "bits");
    require("highest level", levelMax, 1, (1 << (driveBits - 1)) - 1, "steps");
    requirePositive("drive", voltPerLevel, "V a level");
    requirePositive("sense resistor", senseOhm, "ohm");
    channels = List.copyOf(channels);
    if (channels.isEmpty()) {
      throw new IllegalArgumentException("A jig needs at least one converter channel.");
    }
  }

  /**
   * The board of this project: 16 MHz, 15 625 ticks a second, 10 bits out and in, 5 V reference,
   * difference amplifiers of gain 3 centred on mid-supply, 10 ohm sense resistor, 0.8 V peak.
   */
  public static JigHardware nominal() {
    double voltPerCode = 5.0 / 1024 / 3;
    return new JigHardware(
        16_000_000,
        1024,
        10,
        10,
        511,
        0.8 / 511,
        10,
        List.of(
            new Channel(0, "voltage", "V", 512, voltPerCode, 0),
            new Channel(1, "current", "A", 512, voltPerCode / 10, 64_000),
            new Channel(2, "sound", "Pa", 512, 1.0 / 256, 128_000)));
  }

  /** Length of a tick in seconds. */
  public double tickSeconds() {
    return (double) tickCycles / clockHz;
  }

  /** The drive code that drives nothing. */
  public int midScale() {
    return 1 << (driveBits - 1);
  }

  /** The number of converter codes; they run from 0 to this less one. */
  public int converterCodes() {
    return 1 << converterBits;
  }
}
