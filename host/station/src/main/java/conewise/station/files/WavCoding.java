package conewise.station.files;

import java.nio.ByteBuffer;

/** How a WAV file holds one sample. */
public enum WavCoding {
  /** Whole numbers of 16 bits. */
  PCM_16(2),
  /** Whole numbers of 24 bits. */
  PCM_24(3),
  /** Whole numbers of 32 bits. */
  PCM_32(4),
  /** IEEE 754 numbers of 32 bits, full scale being 1. */
  FLOAT_32(4);

  private final int bytes;

  WavCoding(int bytes) {
    this.bytes = bytes;
  }

  /** Bytes a sample. */
  int bytes() {
    return bytes;
  }

  /** The largest part of full scale that can be held: for PCM the top code, one step below 1. */
  double largest() {
    return this == FLOAT_32 ? 1 : 1 - 1 / steps();
  }

  /** Takes the next sample from little-endian bytes, as a part of full scale. */
  double take(ByteBuffer from) {
    return switch (this) {
      case PCM_16 -> from.getShort() / steps();
      case PCM_24 -> {
        int low = Short.toUnsignedInt(from.getShort());
        yield ((from.get() << 16) | low) / steps();
      }
      case PCM_32 -> from.getInt() / steps();
      case FLOAT_32 -> from.getFloat();
    };
  }

  /** Puts a part of full scale, -1 to {@link #largest}, rounded to the nearest code. */
  void put(ByteBuffer to, double part) {
    if (this == FLOAT_32) {
      to.putFloat((float) part);
      return;
    }
    long code = Math.round(part * steps());
    for (int i = 0; i < bytes; i++) {
      to.put((byte) (code >> (8 * i)));
    }
  }

  /** Codes from 0 to full scale. */
  private double steps() {
    return Math.scalb(1.0, 8 * bytes - 1);
  }
}
