package conewise.station.records;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Locale;

/**
 * A plan as its author wrote it, letter by letter.
 *
 * @param format {@code yaml} or {@code json}
 * @param text the whole text, 1 to 65 536 characters
 */
public record PlanText(String format, String text) {
  private static final int MOST = 65_536;

  public PlanText {
    if (!format.equals("yaml") && !format.equals("json")) {
      throw new IllegalArgumentException("a plan is yaml or json; this one is " + format);
    }
    if (text.isBlank() || text.length() > MOST || text.indexOf('\0') >= 0) {
      throw new IllegalArgumentException(
          "a plan has 1 to " + MOST + " characters and no NUL; this one has " + text.length());
    }
  }

  /**
   * The plan of a file.
   *
   * @param name the file's name; the ending {@code .json} makes it JSON
   * @param bytes the file's content, UTF-8
   */
  public static PlanText of(String name, byte[] bytes) {
    boolean json = name.toLowerCase(Locale.ROOT).endsWith(".json");
    return new PlanText(json ? "json" : "yaml", new String(bytes, StandardCharsets.UTF_8));
  }

  /** SHA-256 of the text's UTF-8 bytes (FIPS 180-4), 64 hexadecimal digits. */
  public String hash() {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }
}
