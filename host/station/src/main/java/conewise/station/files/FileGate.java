package conewise.station.files;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;

/** What must hold of a file before anything is read from it. */
final class FileGate {

  private FileGate() {}

  /**
   * Makes sure that this is a file that can be read to its end: there, regular (a pipe may never
   * end), not empty, not too large.
   *
   * @return its size in bytes
   */
  static long size(Path file, long limitBytes) throws BadFileException {
    if (Files.isDirectory(file)) {
      throw new BadFileException(file + " is a directory; name a file in it.");
    }
    if (!Files.exists(file)) {
      throw new BadFileException(file + " does not exist; check the name and the directory.");
    }
    if (!Files.isRegularFile(file)) {
      throw new BadFileException(
          file + " is a device or a pipe; save its content to a file and name that.");
    }
    long size = sizeOf(file);
    if (size == 0) {
      throw new BadFileException(file + " is empty (0 bytes); measure or export it again.");
    }
    if (size > limitBytes) {
      throw new BadFileException(
          file + " has " + size + " bytes and at most " + limitBytes + " are read; shorten it.");
    }
    return size;
  }

  /** The sentence for a file that the operating system would not read. */
  static BadFileException unreadable(Path file, IOException cause) {
    String reason =
        cause instanceof AccessDeniedException
            ? "this user may not read it; change its permissions"
            : "the system says: " + Quoted.of(String.valueOf(cause.getMessage()));
    BadFileException bad = new BadFileException(file + " cannot be read: " + reason + ".");
    bad.initCause(cause);
    return bad;
  }

  private static long sizeOf(Path file) throws BadFileException {
    try {
      return Files.size(file);
    } catch (IOException e) {
      throw unreadable(file, e);
    }
  }
}
