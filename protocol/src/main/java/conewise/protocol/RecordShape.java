package conewise.protocol;

/**
 * How a record of so many channels and such decimation is cut into blocks.
 *
 * @param channels 2 or 3
 * @param decimate how many successive frames each value is the sum of; a power of two, 1 to 32768
 */
public record RecordShape(int channels, int decimate) {
  /** The highest value that two digits hold, for single frames. */
  public static final int RAW_MAX = 4095;

  /** The highest value that three digits hold, for sums. */
  public static final int SUM_MAX = 262_143;

  private static final int DECIMATE_MAX = 32_768;

  /**
   * A shape.
   *
   * @throws IllegalArgumentException if a number is outside its limits
   */
  public RecordShape {
    if (channels < 2 || channels > 3) {
      throw new IllegalArgumentException("a record has 2 or 3 channels, not " + channels);
    }
    if (decimate < 1 || decimate > DECIMATE_MAX || Integer.bitCount(decimate) != 1) {
      throw new IllegalArgumentException(
          "decimate is a power of two from 1 to " + DECIMATE_MAX + ", not " + decimate);
    }
  }

  /** Characters a value: two for single frames, three for sums. */
  public int digits() {
    return decimate == 1 ? 2 : 3;
  }

  /** Frames in each block but perhaps the last. */
  public int blockFrames() {
    return Block.DATA_MAX / (channels * digits());
  }

  /** Ticks from one frame sent to the next. */
  public int intervalTicks() {
    return channels * decimate;
  }

  /** Characters on the wire of a full block, line end included. */
  public int blockCharacters() {
    return Block.OVERHEAD + blockFrames() * channels * digits();
  }

  /** Blocks of a record of so many frames: {@code frames / blockFrames()}, rounded up. */
  public int blocks(int frames) {
    return (frames + blockFrames() - 1) / blockFrames();
  }
}
