package conewise.simulator.analog;

/**
 * The analog side of a jig as its digital side sees it: one tick of the wave output at a time.
 *
 * <p>Per tick the digital side calls {@link #tick(int)} once and then {@link #convert(int)} for the
 * channel whose turn it is. Not safe for use by several threads.
 */
public interface AnalogWorld {
  /**
   * Holds the drive for one tick and advances time by that tick.
   *
   * @param driveCode 0 to 2^bits - 1 of {@link JigHardware#driveBits()}; mid-scale drives nothing
   * @throws IllegalArgumentException if the code is out of range
   */
  void tick(int driveCode);

  /**
   * Converts one channel at the present instant: the end of the last tick.
   *
   * @param channel 0 voltage at the terminals, 1 current into them, 2 optional input
   * @return the converter's code, 0 to 2^bits - 1; both ends also stand for "beyond"
   * @throws IllegalArgumentException if there is no such channel
   */
  int convert(int channel);

  /** The nominal constants that the jig states about itself; the real ones differ a little. */
  JigHardware hardware();
}
