package conewise.station.files;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * The lines of a text file, one after the other, in bounded memory. UTF-8 with or without a byte
 * order mark; lines end with LF, CR LF or CR; anything else that is not text is refused by its
 * line.
 */
final class TextSource implements AutoCloseable {

  /** No line of a known kind comes near this; a longer one is not text made for us. */
  private static final int LONGEST_LINE_BYTES = 4096;

  private static final int LINES_BETWEEN_PROGRESS = 1 << 17;
  private static final int END = -1;

  private final Path file;
  private final long sizeBytes;
  private final Progress progress;
  private final InputStream bytes;
  private final ByteArrayOutputStream lineBytes = new ByteArrayOutputStream(256);
  private String line = "";
  private int number;
  private long bytesTaken;
  private boolean afterReturn;

  private TextSource(Path file, long sizeBytes, Progress progress, InputStream bytes) {
    this.file = file;
    this.sizeBytes = sizeBytes;
    this.progress = progress;
    this.bytes = bytes;
  }

  static TextSource open(Path file, long limitBytes, Progress progress) throws BadFileException {
    long size = FileGate.size(file, limitBytes);
    try {
      InputStream stream = new BufferedInputStream(Files.newInputStream(file), 1 << 16);
      return new TextSource(file, size, progress, stream);
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }

  /** Goes to the next line; false at the end of the file. */
  boolean advance() throws BadFileException {
    lineBytes.reset();
    int next = read();
    if (afterReturn && next == '\n') {
      next = read();
    }
    afterReturn = false;
    if (next == END) {
      return false;
    }
    number++;
    while (next != END && next != '\n' && next != '\r') {
      accept(next);
      next = read();
    }
    afterReturn = next == '\r';
    line = decode();
    if (number % LINES_BETWEEN_PROGRESS == 0) {
      progress.at(Math.min(1, (double) bytesTaken / sizeBytes));
    }
    return true;
  }

  /** The line reached, without its end and without blanks at the right. */
  String line() {
    return line;
  }

  /** The number of the line reached, from 1. */
  int number() {
    return number;
  }

  Path file() {
    return file;
  }

  /** A problem with the line reached. */
  BadFileException bad(String problem) {
    return new BadFileException(file + ", line " + number + ": " + problem);
  }

  /** A problem with one column of the line reached. */
  BadFileException bad(String column, String problem) {
    return new BadFileException(file + ", line " + number + ", column " + column + ": " + problem);
  }

  /** A problem with the file as a whole. */
  BadFileException badFile(String problem) {
    return new BadFileException(file + ": " + problem);
  }

  @Override
  public void close() throws BadFileException {
    try {
      bytes.close();
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }

  private int read() throws BadFileException {
    try {
      int next = bytes.read();
      if (next != END) {
        bytesTaken++;
      }
      return next;
    } catch (IOException e) {
      throw FileGate.unreadable(file, e);
    }
  }

  private void accept(int value) throws BadFileException {
    if (value < ' ' && value != '\t') {
      throw bad(
          "a byte of value "
              + value
              + " stands here, which text does not hold; save the file as text of UTF-8.");
    }
    if (lineBytes.size() == LONGEST_LINE_BYTES) {
      throw bad("the line is longer than " + LONGEST_LINE_BYTES + " bytes; break it up.");
    }
    lineBytes.write(value);
  }

  private String decode() throws BadFileException {
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(ByteBuffer.wrap(lineBytes.toByteArray()))
              .toString();
      return (number == 1 && text.startsWith("\uFEFF") ? text.substring(1) : text).stripTrailing();
    } catch (CharacterCodingException e) {
      throw bad("the bytes are not UTF-8; save the file as text of UTF-8.");
    }
  }
}
