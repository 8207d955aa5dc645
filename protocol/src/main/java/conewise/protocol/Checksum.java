package conewise.protocol;

import java.util.Locale;

/**
 * The checksum of every line: CRC-16/X-25, taken a byte at a time.
 *
 * <p>Polynomial x^16 + x^12 + x^5 + 1 (0x1021, reflected 0x8408), start 0xFFFF, inverted at the
 * end; the check value of "123456789" is 0x906E (ITU-T X.25 frame check sequence). It finds every
 * burst of up to 16 bits and all but one in 65 536 of other damage. Not safe for use by several
 * threads at once.
 */
public final class Checksum {
  /** Characters that a checksum adds to a line: a space, "~" and four digits. */
  public static final int SUFFIX_LENGTH = 6;

  private static final int REFLECTED_POLYNOMIAL = 0x8408;
  private static final int START = 0xFFFF;

  private int register = START;

  /** Takes in one byte; only the low eight bits of {@code octet} count. */
  public void update(int octet) {
    register ^= octet & 0xFF;
    for (int bit = 0; bit < 8; bit++) {
      register = (register & 1) == 0 ? register >>> 1 : (register >>> 1) ^ REFLECTED_POLYNOMIAL;
    }
  }

  /** The checksum of all bytes so far, 0 to 65535; more bytes may follow. */
  public int value() {
    return register ^ 0xFFFF;
  }

  /** Forgets all bytes, as a new checksum. */
  public void reset() {
    register = START;
  }

  /** The checksum of bytes, 0 to 65535. */
  public static int of(byte[] octets) {
    Checksum checksum = new Checksum();
    for (byte octet : octets) {
      checksum.update(octet);
    }
    return checksum.value();
  }

  /**
   * The checksum of ASCII characters, 0 to 65535; of other characters only the low eight bits
   * count.
   */
  public static int of(CharSequence text) {
    Checksum checksum = new Checksum();
    for (int i = 0; i < text.length(); i++) {
      checksum.update(text.charAt(i));
    }
    return checksum.value();
  }

  /** Four upper-case hexadecimal digits of a checksum of 0 to 65535. */
  public static String hex(int checksum) {
    return String.format(Locale.ROOT, "%04X", checksum & 0xFFFF);
  }

  /** The line with its checksum as last word: what travels, without the line end. */
  public static String seal(String text) {
    return text + " ~" + hex(of(text));
  }
}
