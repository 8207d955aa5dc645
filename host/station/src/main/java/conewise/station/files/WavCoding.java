package conewise.station.files;

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
}
