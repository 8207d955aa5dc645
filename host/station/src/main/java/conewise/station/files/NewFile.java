package conewise.station.files;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * Writes a file whole or not at all: into a temporary one beside it, to the disk, then into place
 * in one step.
 */
public final class NewFile {

  /** Writes the content. */
  @FunctionalInterface
  interface Content {
    void writeTo(OutputStream out) throws IOException, BadFileException;
  }

  private NewFile() {}

  static void write(Path file, Existing existing, Content content) throws BadFileException {
    if (existing == Existing.REFUSE && Files.exists(file)) {
      throw taken(file);
    }
    if (Files.isDirectory(file)) {
      throw new BadFileException(file + " is a directory; name a file in it.");
    }
    try {
      writeBeside(file, existing, content);
    } catch (FileAlreadyExistsException e) {
      throw taken(file);
    } catch (NoSuchFileException e) {
      throw unwritable(file, "its directory does not exist; make it first", e);
    } catch (AccessDeniedException e) {
      throw unwritable(file, "this user may not write there; choose another place", e);
    } catch (IOException e) {
      throw unwritable(file, "the system says: " + Quoted.of(String.valueOf(e.getMessage())), e);
    }
  }

  /**
   * Writes text as UTF-8.
   *
   * @throws BadFileException when it cannot be written, or a file is there that may not be replaced
   */
  public static void writeText(Path file, Existing existing, CharSequence text)
      throws BadFileException {
    write(file, existing, out -> out.write(text.toString().getBytes(StandardCharsets.UTF_8)));
  }

  private static void writeBeside(Path file, Existing existing, Content content)
      throws IOException, BadFileException {
    Path directory = file.toAbsolutePath().getParent();
    Path temporary = directory.resolve("." + file.getFileName() + "." + System.nanoTime() + ".new");
    try {
      try (FileChannel channel =
              FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
          OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel), 1 << 16)) {
        content.writeTo(out);
        out.flush();
        channel.force(true);
      }
      if (existing == Existing.REPLACE) {
        Files.move(temporary, file, StandardCopyOption.ATOMIC_MOVE);
      } else {
        Files.move(temporary, file);
      }
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private static BadFileException taken(Path file) {
    return new BadFileException(
        file + " exists already and is left as it is; choose another name, or ask to replace it.");
  }

  private static BadFileException unwritable(Path file, String reason, IOException cause) {
    BadFileException bad = new BadFileException(file + " cannot be written: " + reason + ".");
    bad.initCause(cause);
    return bad;
  }
}
