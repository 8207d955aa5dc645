package conewise.protocol;

import java.nio.charset.StandardCharsets;
import java.util.Optional;

/**
 * One line as received, its checksum already looked at and taken off. Comes from a {@link
 * LineReader}.
 */
public sealed interface Line {

  /**
   * A line that holds printable ASCII only and whose checksum, if it has one, is right.
   *
   * @param text the line without its checksum
   * @param checked whether a checksum was there; false for a line typed by hand
   */
  record Sound(String text, boolean checked) implements Line {}

  /**
   * A line that must not be used.
   *
   * @param reason {@link JigError#LINE_DAMAGED}, {@link JigError#LINE_TOO_LONG} or {@link
   *     JigError#LINE_NOT_TEXT}
   * @param heard what was taken in before the damage was seen, for a log only
   */
  record Damaged(JigError reason, String heard) implements Line {}

  /**
   * Reads one whole line, as a {@link LineReader} would.
   *
   * @param wire the line without its line end, as ISO 8859-1 characters
   * @param maxLength the most characters that it may have
   * @return the line; empty for an empty one
   */
  static Optional<Line> of(String wire, int maxLength) {
    LineReader reader = new LineReader(maxLength);
    for (byte octet : wire.getBytes(StandardCharsets.ISO_8859_1)) {
      if (octet == '\n') {
        return Optional.of(new Damaged(JigError.LINE_NOT_TEXT, wire));
      }
      reader.accept(octet);
    }
    return reader.accept((byte) '\n');
  }

  /** The line that these characters without line end make, checksum looked at. */
  static Line unseal(String wire) {
    int tilde = wire.lastIndexOf('~');
    if (tilde < 0
        || (tilde > 0 && wire.charAt(tilde - 1) != ' ')
        || wire.indexOf(' ', tilde) >= 0) {
      return new Sound(wire, false);
    }
    String text = wire.substring(0, Math.max(0, tilde - 1));
    int given = Hex.parse(wire.substring(tilde + 1), 4);
    if (text.isEmpty() || given != Checksum.of(text)) {
      return new Damaged(JigError.LINE_DAMAGED, wire);
    }
    return new Sound(text, true);
  }
}
