package conewise.protocol;

import java.util.Optional;

/**
 * Turns bytes into lines, one byte at a time, in bounded memory. Both ends use it.
 *
 * <p>The first damage met names the reason; everything from there to the line end is dropped, and
 * the next line is read afresh. A CR right before the LF is ignored, and so is an empty line. Not
 * safe for use by several threads at once.
 */
public final class LineReader {
  /** The most characters of a request, checksum included, line end not counted. */
  public static final int REQUEST_MAX = 120;

  /** The most characters of a line from the jig, checksum included, line end not counted. */
  public static final int JIG_LINE_MAX = 160;

  private final int maxLength;
  private final StringBuilder heard;
  private boolean carriageReturn;
  private JigError damage;
  private long damagedLines;

  /**
   * A reader of lines.
   *
   * @param maxLength the most characters a line may have, checksum included, line end not counted;
   *     at least 1
   * @throws IllegalArgumentException if {@code maxLength} is below 1
   */
  public LineReader(int maxLength) {
    if (maxLength < 1) {
      throw new IllegalArgumentException("a line must hold at least 1 character, not " + maxLength);
    }
    this.maxLength = maxLength;
    this.heard = new StringBuilder(Math.min(maxLength, JIG_LINE_MAX));
  }

  /**
   * Takes in the next byte.
   *
   * @return the line that this byte ends, sound or damaged; empty while a line goes on and for an
   *     empty line
   */
  public Optional<Line> accept(byte octet) {
    if (octet == '\n') {
      return end();
    }
    if (damage == null) {
      take(octet);
    }
    return Optional.empty();
  }

  private void take(byte octet) {
    boolean printable = octet >= 0x20 && octet <= 0x7E;
    if (carriageReturn || (!printable && octet != '\r')) {
      damage = JigError.LINE_NOT_TEXT;
    } else if (octet == '\r') {
      carriageReturn = true;
    } else if (heard.length() == maxLength) {
      damage = JigError.LINE_TOO_LONG;
    } else {
      heard.append((char) octet);
    }
  }

  private Optional<Line> end() {
    String wire = heard.toString();
    JigError reason = damage;
    dropPartialLine();
    if (reason == null && wire.isEmpty()) {
      return Optional.empty();
    }
    Line line = reason == null ? Line.unseal(wire) : new Line.Damaged(reason, wire);
    if (line instanceof Line.Damaged) {
      damagedLines++;
    }
    return Optional.of(line);
  }

  /** Forgets the line begun, as after a reset of the other end; the count stays. */
  public void dropPartialLine() {
    heard.setLength(0);
    carriageReturn = false;
    damage = null;
  }

  /** Whether a line has begun and its end has not come. */
  public boolean midLine() {
    return damage != null || carriageReturn || heard.length() > 0;
  }

  /** Lines met so far that were too long, not text or of a wrong checksum. */
  public long damagedLines() {
    return damagedLines;
  }
}
