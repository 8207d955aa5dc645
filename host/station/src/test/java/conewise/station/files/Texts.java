package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.function.Executable;

/** Files made for one test. */
final class Texts {

  private Texts() {}

  static Path file(Path directory, String name, String content) {
    return file(directory, name, content.getBytes(StandardCharsets.UTF_8));
  }

  static Path file(Path directory, String name, byte[] content) {
    try {
      return Files.write(directory.resolve(name), content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The sentence with which a bad file is answered. */
  static String refusal(Executable reading) {
    return assertThrows(BadFileException.class, reading).getMessage();
  }
}
