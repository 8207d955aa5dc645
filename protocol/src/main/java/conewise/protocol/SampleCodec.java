package conewise.protocol;

import java.util.Arrays;

/**
 * Packs samples into the data of a block and back: each value as two or three digits of the base64
 * alphabet (RFC 4648, table 1), most significant first, the channels of a frame in order, frame
 * after frame.
 */
public final class SampleCodec {
  private static final String ALPHABET =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  private static final int DIGIT_BITS = 6;

  private final int channels;
  private final int digits;

  /**
   * A codec.
   *
   * @param channels values in a frame, 2 or 3
   * @param digits characters a value, 2 or 3
   * @throws IllegalArgumentException if either is another
   */
  public SampleCodec(int channels, int digits) {
    if (channels < 2 || channels > 3) {
      throw new IllegalArgumentException("a frame has 2 or 3 channels, not " + channels);
    }
    if (digits < 2 || digits > 3) {
      throw new IllegalArgumentException("a value has 2 or 3 digits, not " + digits);
    }
    this.channels = channels;
    this.digits = digits;
  }

  /** What the data of a block was. */
  public sealed interface Outcome {}

  /** Whole frames of values. */
  public static final class Samples implements Outcome {
    private final int channels;
    private final int[] values;

    private Samples(int channels, int[] values) {
      this.channels = channels;
      this.values = values;
    }

    /** How many frames there are, at least 1. */
    public int frames() {
      return values.length / channels;
    }

    /** Values in a frame. */
    public int channels() {
      return channels;
    }

    /** One value; frame and channel count from 0. */
    public int value(int frame, int channel) {
      if (channel < 0 || channel >= channels) {
        throw new IndexOutOfBoundsException("channel " + channel + " of " + channels);
      }
      return values[frame * channels + channel];
    }

    /** All values, frame after frame: frames x channels of them. */
    public int[] interleaved() {
      return values.clone();
    }

    @Override
    public String toString() {
      return "Samples" + Arrays.toString(values);
    }
  }

  /**
   * Data that holds no whole frames.
   *
   * @param reason one sentence that says why
   */
  public record Malformed(String reason) implements Outcome {}

  /** The highest value that fits: 4095 or 262143. */
  public int maxValue() {
    return (1 << (DIGIT_BITS * digits)) - 1;
  }

  /** Frames of a full block. */
  public int blockFrames() {
    return Block.DATA_MAX / (channels * digits);
  }

  /**
   * The data of one block.
   *
   * @param interleaved frames x channels values from 0 to {@link #maxValue}, frame after frame
   * @throws IllegalArgumentException if there is no whole number of frames, more than fit a block,
   *     or a value is too large
   */
  public String encode(int... interleaved) {
    int frames = interleaved.length / channels;
    if (frames * channels != interleaved.length || frames < 1 || frames > blockFrames()) {
      throw new IllegalArgumentException(
          "a block holds 1 to "
              + blockFrames()
              + " frames of "
              + channels
              + " values, not "
              + interleaved.length
              + " values");
    }
    StringBuilder data = new StringBuilder(interleaved.length * digits);
    for (int value : interleaved) {
      append(data, value);
    }
    return data.toString();
  }

  private void append(StringBuilder data, int value) {
    if (value < 0 || value > maxValue()) {
      throw new IllegalArgumentException(
          "a value of " + digits + " digits runs from 0 to " + maxValue() + ", not " + value);
    }
    for (int digit = digits - 1; digit >= 0; digit--) {
      data.append(ALPHABET.charAt((value >>> (DIGIT_BITS * digit)) & 0x3F));
    }
  }

  /** The frames in the data of a block, or why there are none. */
  public Outcome decode(String data) {
    int frameLength = channels * digits;
    if (data.isEmpty() || data.length() % frameLength != 0 || data.length() > Block.DATA_MAX) {
      return new Malformed(
          "A block holds whole frames of "
              + frameLength
              + " characters and at most "
              + Block.DATA_MAX
              + ", but this one has "
              + data.length()
              + ".");
    }
    int[] values = new int[data.length() / digits];
    for (int i = 0; i < data.length(); i++) {
      int digit = ALPHABET.indexOf(data.charAt(i));
      if (digit < 0) {
        return new Malformed(
            "A block holds characters of the base64 alphabet only, but character "
                + (i + 1)
                + " is code "
                + (int) data.charAt(i)
                + ".");
      }
      values[i / digits] = (values[i / digits] << DIGIT_BITS) | digit;
    }
    return new Samples(channels, values);
  }
}
