package conewise.station.files;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A small text file as a whole. */
public final class TextFile {

  private TextFile() {}

  /**
   * All lines of a text file of UTF-8, with or without a byte order mark, blanks at the right taken
   * away.
   *
   * @param file the file
   * @param limitBytes the largest size that is read
   * @return at least one line, without line ends
   * @throws BadFileException when it is not there, not text, empty or too large
   */
  public static List<String> lines(Path file, long limitBytes) throws BadFileException {
    List<String> lines = new ArrayList<>();
    try (TextSource source = TextSource.open(file, limitBytes, Progress.UNHEARD)) {
      while (source.advance()) {
        lines.add(source.line());
      }
    }
    return List.copyOf(lines);
  }
}
