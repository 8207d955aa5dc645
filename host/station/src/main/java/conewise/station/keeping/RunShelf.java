package conewise.station.keeping;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A folder that holds the runs of all boxes: {@code <serial>/attempt-001} and so on. Attempts are
 * counted from what is there, so a retest can never pass for a first try.
 *
 * @param folder where the runs are kept; made on first use
 */
public record RunShelf(Path folder) {
  /** The longest serial number, in characters. */
  public static final int SERIAL_MAX = 64;

  private static final int ATTEMPT_MAX = 999_999;
  private static final Pattern ATTEMPT = Pattern.compile("attempt-([0-9]{3,6})");

  /**
   * Takes the next attempt for a serial number. The folder is made here, so two benches that share
   * a shelf never get the same attempt.
   *
   * @param serial the box's number, 1 to 64 characters, not blank
   * @throws IllegalArgumentException when the serial is blank or too long
   * @throws IOException when the folder cannot be made
   */
  public RunFolder next(String serial) throws IOException {
    Path ofBox = folder.resolve(folderName(serial));
    Files.createDirectories(ofBox);
    int attempt = highest(ofBox) + 1;
    while (attempt <= ATTEMPT_MAX) {
      Path run = ofBox.resolve(String.format(Locale.ROOT, "attempt-%03d", attempt));
      try {
        Files.createDirectory(run);
        return new RunFolder(run, attempt);
      } catch (FileAlreadyExistsException takenMeanwhile) {
        attempt++;
      }
    }
    throw new IOException(ofBox + " holds " + ATTEMPT_MAX + " attempts, which is the most");
  }

  private static int highest(Path ofBox) throws IOException {
    int highest = 0;
    try (DirectoryStream<Path> runs = Files.newDirectoryStream(ofBox, "attempt-*")) {
      for (Path run : runs) {
        Matcher matcher = ATTEMPT.matcher(run.getFileName().toString());
        if (matcher.matches()) {
          highest = Math.max(highest, Integer.parseInt(matcher.group(1)));
        }
      }
    }
    return highest;
  }

  /**
   * A folder's name for a serial number: letters, digits, {@code -} and {@code _} stand for
   * themselves, every other byte of its UTF-8 form becomes {@code %XX}. No two serials share a
   * name, none leads out of the shelf.
   */
  static String folderName(String serial) {
    if (serial.isBlank() || serial.length() > SERIAL_MAX) {
      throw new IllegalArgumentException(
          "the serial number has "
              + serial.strip().length()
              + " characters; it must have 1 to "
              + SERIAL_MAX);
    }
    StringBuilder name = new StringBuilder();
    for (byte octet : serial.getBytes(StandardCharsets.UTF_8)) {
      char letter = (char) (octet & 0xFF);
      boolean plain =
          letter < 0x80 && (Character.isLetterOrDigit(letter) || "-_".indexOf(letter) >= 0);
      name.append(plain ? String.valueOf(letter) : String.format(Locale.ROOT, "%%%02X", octet));
    }
    return name.toString();
  }
}
