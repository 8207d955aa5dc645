package conewise.station.files;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.Map;

/**
 * The {@code fmt } chunk of a WAV file (Multimedia Programming Interface and Data Specifications
 * 1.0, IBM and Microsoft 1991; the extensible form by Microsoft's {@code WAVEFORMATEXTENSIBLE}).
 *
 * @param coding how a sample is held
 * @param sampleRateHz frames a second
 * @param validBits how many bits of a PCM sample mean something, counted from the top; 32 for float
 */
record WavHeader(WavCoding coding, int sampleRateHz, int validBits) {

  static final int PCM = 1;
  static final int FLOAT = 3;
  static final int EXTENSIBLE = 0xFFFE;
  static final int CHANNELS = 2;
  static final int SHORTEST = 16;
  static final int LONGEST = 40;
  static final int FASTEST_HZ = 10_000_000;

  /** The last 14 bytes of the sub-format of every coding that has a short number. */
  private static final byte[] SUBFORMAT_TAIL = {
    0, 0, 0, 0, 0x10, 0, (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38, (byte) 0x9B, 0x71
  };

  private static final Map<Integer, String> COMPRESSED =
      Map.of(2, "ADPCM", 6, "A-law", 7, "mu-law", 0x11, "IMA ADPCM", 0x31, "GSM", 0x55, "MP3");

  /**
   * Reads the content of the chunk.
   *
   * @param chunk little-endian, 16 to 40 bytes
   */
  static WavHeader read(WavSource source, ByteBuffer chunk) throws BadFileException {
    int tag = Short.toUnsignedInt(chunk.getShort(0));
    int channels = Short.toUnsignedInt(chunk.getShort(2));
    int rate = chunk.getInt(4);
    int blockBytes = Short.toUnsignedInt(chunk.getShort(12));
    int bits = Short.toUnsignedInt(chunk.getShort(14));
    int validBits = bits;
    if (tag == EXTENSIBLE) {
      tag = subformat(source, chunk);
      int stated = Short.toUnsignedInt(chunk.getShort(18));
      validBits = stated == 0 ? bits : stated;
    }
    WavCoding coding = coding(source, tag, bits);
    if (channels != CHANNELS) {
      throw source.bad(
          "it has "
              + channels
              + (channels == 1 ? " channel" : " channels")
              + "; needed are 2, one for the voltage and one for the current.");
    }
    if (rate < 1 || rate > FASTEST_HZ) {
      throw source.bad(
          "its sample rate is "
              + Integer.toUnsignedString(rate)
              + " Hz; allowed is 1 to "
              + FASTEST_HZ
              + " Hz.");
    }
    if (blockBytes != CHANNELS * coding.bytes() || validBits > bits || validBits < 8) {
      throw source.bad(
          "its header contradicts itself ("
              + bits
              + " bits, "
              + validBits
              + " of them valid, "
              + blockBytes
              + " bytes a frame); export it again.");
    }
    return new WavHeader(coding, rate, validBits);
  }

  private static int subformat(WavSource source, ByteBuffer chunk) throws BadFileException {
    if (chunk.limit() < LONGEST) {
      throw source.bad(
          "its header is of the extensible kind and has "
              + chunk.limit()
              + " bytes in place of 40; export it again.");
    }
    byte[] tail = new byte[SUBFORMAT_TAIL.length];
    chunk.get(26, tail);
    if (!Arrays.equals(tail, SUBFORMAT_TAIL)) {
      throw source.bad("its coding is not known; export it as PCM of 16, 24 or 32 bits.");
    }
    return Short.toUnsignedInt(chunk.getShort(24));
  }

  private static WavCoding coding(WavSource source, int tag, int bits) throws BadFileException {
    if (tag != PCM && tag != FLOAT) {
      String name = COMPRESSED.getOrDefault(tag, "number " + tag);
      throw source.bad(
          "its coding is " + name + "; export it as PCM of 16, 24 or 32 bits, not compressed.");
    }
    if (tag == FLOAT && bits == 32) {
      return WavCoding.FLOAT_32;
    }
    if (tag == PCM && (bits == 16 || bits == 24 || bits == 32)) {
      return bits == 16 ? WavCoding.PCM_16 : bits == 24 ? WavCoding.PCM_24 : WavCoding.PCM_32;
    }
    throw source.bad(
        "its samples are "
            + (tag == PCM ? "PCM" : "float")
            + " of "
            + bits
            + " bits; read are PCM of 16, 24 and 32 bits and float of 32.");
  }
}
