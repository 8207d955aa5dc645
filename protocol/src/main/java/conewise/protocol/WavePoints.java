package conewise.protocol;

import java.util.Base64;

/**
 * Points of a wave table as {@code load} carries them: signed bytes in standard base64 with padding
 * (RFC 4648, section 4).
 */
public final class WavePoints {
  /** The most points of one {@code load}. */
  public static final int LOAD_MAX = 48;

  /** The highest point; the lowest is its negative. */
  public static final int POINT_MAX = 127;

  private WavePoints() {}

  /** The base64 of points; any byte is taken as it is. */
  public static String encode(byte[] points) {
    return Base64.getEncoder().encodeToString(points);
  }

  /**
   * The points of a field, -128 read as -127.
   *
   * @throws FieldProblem if the value is not base64 with its padding
   */
  public static byte[] decode(String key, String base64) {
    byte[] points = bytes(key, base64);
    for (int i = 0; i < points.length; i++) {
      points[i] = (byte) Math.max(points[i], -POINT_MAX);
    }
    return points;
  }

  private static byte[] bytes(String key, String base64) {
    if (base64.length() % 4 != 0) {
      throw FieldProblem.malformed(key, base64, "base64 whose length is a multiple of four");
    }
    try {
      return Base64.getDecoder().decode(base64);
    } catch (IllegalArgumentException e) {
      throw FieldProblem.malformed(
          key, base64, "base64 of the standard alphabet, padded at its end only");
    }
  }

  /**
   * The CRC-16/X-25 of the first {@code count} points as bytes: the {@code crc} of {@code play}.
   */
  public static int checksum(byte[] points, int count) {
    Checksum checksum = new Checksum();
    for (int i = 0; i < count; i++) {
      checksum.update(points[i]);
    }
    return checksum.value();
  }
}
