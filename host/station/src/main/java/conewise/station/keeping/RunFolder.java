package conewise.station.keeping;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/**
 * The folder of one run. {@code verdict.json} is written last: a folder without it is a run that
 * came to no end.
 *
 * @param path the folder
 * @param attempt which attempt this is for the box, from 1
 */
public record RunFolder(Path path, int attempt) {

  /**
   * Writes a file that is there whole or not at all, and on the disk before this returns.
   *
   * @param name the file's name within the folder
   * @param text its content, written as UTF-8
   */
  public void write(String name, String text) throws IOException {
    write(name, text.getBytes(StandardCharsets.UTF_8));
  }

  /** The same for bytes. */
  public void write(String name, byte[] content) throws IOException {
    Path part = path.resolve(name + ".part");
    try (FileChannel channel =
        FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      ByteBuffer bytes = ByteBuffer.wrap(content);
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      channel.force(true);
    }
    Files.move(part, path.resolve(name), StandardCopyOption.ATOMIC_MOVE);
  }
}
