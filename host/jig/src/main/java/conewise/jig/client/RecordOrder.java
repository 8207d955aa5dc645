package conewise.jig.client;

import conewise.protocol.RecordShape;

/**
 * What a record should hold.
 *
 * @param channels 2 (voltage, current) or 3
 * @param frames how many frames are sent, at least 1
 * @param skip how many are left out first, at least 0
 * @param decimate how many successive frames each value is the sum of; a power of two
 */
public record RecordOrder(int channels, int frames, int skip, int decimate) {

  /** The longest record that is asked for: sequence numbers of blocks must not wrap. */
  private static final int BLOCKS_MAX = 65_536;

  public RecordOrder {
    RecordShape shape = new RecordShape(channels, decimate);
    int most = Math.multiplyExact(BLOCKS_MAX, shape.blockFrames());
    if (frames < 1 || frames > most) {
      throw new IllegalArgumentException(
          "the record has " + frames + " frames; it may have 1 to " + most);
    }
    if (skip < 0) {
      throw new IllegalArgumentException("the record skips " + skip + " frames; at least 0");
    }
  }

  /** Two channels, every frame. */
  public static RecordOrder raw(int frames, int skip) {
    return new RecordOrder(2, frames, skip, 1);
  }

  /** How the record is cut into blocks. */
  public RecordShape shape() {
    return new RecordShape(channels, decimate);
  }
}
