package conewise.simulator.jig;

/**
 * A wave that the host loaded: linear interpolation between signed 8-bit points, at 16 bits of
 * phase so that the steepest table (a jump of 254) is still followed within a part of a drive step.
 * The product is below 254 x 2^16, which fits 32 bits.
 */
final class TableShape implements WaveShape {
  private static final int FRACTION_MASK = 0xFFFF;

  private final byte[] points;
  private final int count;
  private final int indexShift;

  /**
   * The first {@code count} of the points.
   *
   * @param count a power of two from 16 to points.length, at most 65536
   */
  TableShape(byte[] points, int count) {
    this.points = points;
    this.count = count;
    this.indexShift = Integer.SIZE - Integer.numberOfTrailingZeros(count);
  }

  @Override
  public int at(int phase) {
    int index = phase >>> indexShift;
    int fraction = (phase >>> (indexShift - 16)) & FRACTION_MASK;
    int here = points[index];
    int next = points[(index + 1) & (count - 1)];
    return (here << 8) + (((next - here) * fraction + 128) >> 8);
  }
}
