package conewise.station.files;

/** Text from a file, made fit to stand in a sentence. */
public final class Quoted {

  private static final int LONGEST = 40;

  private Quoted() {}

  /**
   * The text between double quotes, at most 40 characters of it, on one line.
   *
   * @param text anything found in a file
   */
  public static String of(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    text.codePoints()
        .limit(LONGEST)
        .forEach(point -> quoted.appendCodePoint(Character.isISOControl(point) ? '?' : point));
    if (text.codePointCount(0, text.length()) > LONGEST) {
      quoted.append("...");
    }
    return quoted.append('"').toString();
  }
}
