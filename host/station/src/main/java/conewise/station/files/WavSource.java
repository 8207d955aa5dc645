package conewise.station.files;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;

/** The chunks of a WAV file, found one after the other; the samples' bytes in bounded pieces. */
final class WavSource implements AutoCloseable {

  static final long MOST_BYTES = 1L << 30;

  private static final int MOST_CHUNKS = 1000;
  private static final int CHUNK_HEAD = 8;
  private static final int FILE_HEAD = 12;

  private final Path file;
  private final FileChannel channel;
  private final long sizeBytes;

  /** The samples: what they are, where they begin, how many bytes they take. */
  record Samples(WavHeader header, long start, long bytes) {}

  private WavSource(Path file, FileChannel channel, long sizeBytes) {
    this.file = file;
    this.channel = channel;
    this.sizeBytes = sizeBytes;
  }

  static WavSource open(Path file) throws BadFileException {
    long size = FileGate.size(file, MOST_BYTES);
    try {
      return new WavSource(file, FileChannel.open(file), size);
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }

  /** Walks over the chunks to the samples. */
  Samples findSamples() throws BadFileException {
    ByteBuffer head = bytes(0, (int) Math.min(FILE_HEAD, sizeBytes));
    if (sizeBytes < FILE_HEAD || !word(head, 0).equals("RIFF") || !word(head, 8).equals("WAVE")) {
      throw bad(
          "it does not begin as a WAV file does (RIFF ... WAVE); export it as WAV"
              + " (not RF64, RIFX or W64).");
    }
    Optional<WavHeader> header = Optional.empty();
    long place = FILE_HEAD;
    for (int i = 0; i < MOST_CHUNKS && place + CHUNK_HEAD <= sizeBytes; i++) {
      ByteBuffer chunk = bytes(place, CHUNK_HEAD);
      String name = word(chunk, 0);
      long size = Integer.toUnsignedLong(chunk.getInt(4));
      long start = place + CHUNK_HEAD;
      refuseCut(name, size, start);
      if (name.equals("fmt ")) {
        if (header.isPresent()) {
          throw bad("it has two headers (chunk \"fmt \"); export it again.");
        }
        header = Optional.of(readHeader(start, size));
      } else if (name.equals("data")) {
        return new Samples(requireHeader(header), start, size);
      }
      place = start + size + size % 2;
    }
    throw bad("it holds no samples (chunk \"data\"); record or export it again.");
  }

  /** Some bytes of the file, little-endian, from 0 to the buffer's limit. */
  ByteBuffer bytes(long start, int count) throws BadFileException {
    ByteBuffer buffer = ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
    try {
      while (buffer.hasRemaining()) {
        if (channel.read(buffer, start + buffer.position()) < 0) {
          throw bad("it became shorter while it was read; wait until it is written.");
        }
      }
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
    return buffer.flip();
  }

  BadFileException bad(String problem) {
    return new BadFileException(file + ": " + problem);
  }

  @Override
  public void close() throws BadFileException {
    try {
      channel.close();
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }

  private WavHeader readHeader(long start, long size) throws BadFileException {
    if (size < WavHeader.SHORTEST) {
      throw bad("its header has " + size + " bytes; it needs at least 16: export it again.");
    }
    return WavHeader.read(this, bytes(start, (int) Math.min(size, WavHeader.LONGEST)));
  }

  private WavHeader requireHeader(Optional<WavHeader> header) throws BadFileException {
    if (header.isEmpty()) {
      throw bad("its samples stand before any header (chunk \"fmt \"); export it again.");
    }
    return header.get();
  }

  private void refuseCut(String name, long size, long start) throws BadFileException {
    if (size > sizeBytes - start) {
      throw bad(
          "it is cut short: the chunk "
              + Quoted.of(name)
              + " says "
              + size
              + " bytes and "
              + (sizeBytes - start)
              + " follow; record or copy it again.");
    }
  }

  private static String word(ByteBuffer buffer, int at) {
    if (buffer.limit() < at + 4) {
      return "";
    }
    byte[] four = new byte[4];
    buffer.get(at, four);
    return new String(four, StandardCharsets.ISO_8859_1);
  }
}
