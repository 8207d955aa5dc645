package conewise.simulator.jig;

/** A wave that the host loaded: linear interpolation of 8 bits between signed 8-bit points. */
final class TableShape implements WaveShape {
  private final byte[] points;
  private final int count;
  private final int fractionShift;

  /**
   * The first {@code count} of the points.
   *
   * @param count a power of two from 16 to points.length
   */
  TableShape(byte[] points, int count) {
    this.points = points;
    this.count = count;
    this.fractionShift = Integer.SIZE - Integer.numberOfTrailingZeros(count) - 8;
  }

  @Override
  public int at(int phase) {
    int position = phase >>> fractionShift;
    int index = position >>> 8;
    int fraction = position & 0xFF;
    int here = points[index];
    int next = points[(index + 1) & (count - 1)];
    return (here << 8) + (next - here) * fraction;
  }
}
