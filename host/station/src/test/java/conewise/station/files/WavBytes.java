package conewise.station.files;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** WAV files put together byte by byte, right and wrong ones, apart from the writer under test. */
final class WavBytes {

  private WavBytes() {}

  /** A whole file of some chunks. */
  static byte[] file(byte[]... chunks) {
    int size = 4;
    for (byte[] chunk : chunks) {
      size += chunk.length;
    }
    ByteBuffer all = ByteBuffer.allocate(8 + size).order(ByteOrder.LITTLE_ENDIAN);
    all.put(ascii("RIFF")).putInt(size).put(ascii("WAVE"));
    for (byte[] chunk : chunks) {
      all.put(chunk);
    }
    return all.array();
  }

  static byte[] chunk(String name, byte[] content) {
    ByteBuffer chunk =
        ByteBuffer.allocate(8 + content.length + content.length % 2).order(ByteOrder.LITTLE_ENDIAN);
    return chunk.put(ascii(name)).putInt(content.length).put(content).array();
  }

  static byte[] header(int tag, int channels, int rate, int bits) {
    int frame = channels * bits / 8;
    ByteBuffer content = ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN);
    content.putShort((short) tag).putShort((short) channels).putInt(rate).putInt(rate * frame);
    return chunk("fmt ", content.putShort((short) frame).putShort((short) bits).array());
  }

  static byte[] extensible(int rate, int bits, int validBits, int subformat) {
    ByteBuffer content = ByteBuffer.allocate(40).order(ByteOrder.LITTLE_ENDIAN);
    content.putShort((short) 0xFFFE).putShort((short) 2).putInt(rate).putInt(rate * bits / 4);
    content.putShort((short) (bits / 4)).putShort((short) bits).putShort((short) 22);
    content.putShort((short) validBits).putInt(3).putShort((short) subformat);
    // KSDATAFORMAT_SUBTYPE_...: xxxx0000-0000-0010-8000-00AA00389B71, mixed-endian.
    content.put(new byte[] {0, 0, 0, 0, 0x10, 0, (byte) 0x80, 0, 0, (byte) 0xAA, 0, 0x38});
    return chunk("fmt ", content.put(new byte[] {(byte) 0x9B, 0x71}).array());
  }

  static byte[] data(int... bytes) {
    byte[] content = new byte[bytes.length];
    for (int i = 0; i < bytes.length; i++) {
      content[i] = (byte) bytes[i];
    }
    return chunk("data", content);
  }

  private static byte[] ascii(String word) {
    return word.getBytes(StandardCharsets.US_ASCII);
  }
}
