package conewise.station.lab;

import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;

/**
 * Whose data are drawn.
 *
 * @param number the student's number, 1 to {@value #MOST}
 * @param course a word that the instructor keeps; with it the number alone does not give the key
 *     away. Empty for none, at most {@value #LONGEST} characters
 */
public record Student(long number, String course) {
  static final long MOST = 999_999_999_999L;
  static final int LONGEST = 100;
  private static final long OFFSET = 0xcbf29ce484222325L;
  private static final long PRIME = 0x100000001b3L;

  /** Checks both. */
  public Student {
    if (number < 1 || number > MOST) {
      throw new IllegalArgumentException(
          "the student's number is " + number + "; it must be from 1 to " + MOST);
    }
    if (course.length() > LONGEST) {
      throw new IllegalArgumentException(
          "the course's word has "
              + course.length()
              + " characters; it may have at most "
              + LONGEST);
    }
  }

  /** A student of a course without a word. */
  public static Student of(long number) {
    return new Student(number, "");
  }

  /**
   * Numbers drawn for one purpose: the same each time and on each machine, and unlike those of any
   * other purpose. The seed is the 64-bit FNV-1a hash of number, course and purpose (from memory);
   * the generator mixes it further.
   */
  SplittableRandom random(String purpose) {
    String text = number + "\n" + course + "\n" + purpose;
    long hash = OFFSET;
    for (byte each : text.getBytes(StandardCharsets.UTF_8)) {
      hash = (hash ^ (each & 0xff)) * PRIME;
    }
    return new SplittableRandom(hash);
  }
}
