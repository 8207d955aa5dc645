package conewise.analysis.netlist;

import java.util.Locale;

/** Names and words from outside, made harmless for a netlist. */
final class Spelling {
  private static final int LONGEST_NAME = 40;
  private static final int LONGEST_COMMENT = 200;

  private Spelling() {}

  /** Text within one comment line: what is not printable ASCII becomes a question mark. */
  static String comment(String text) {
    String tame = text.replaceAll("[^\\x20-\\x7e]", "?");
    return tame.length() > LONGEST_COMMENT ? tame.substring(0, LONGEST_COMMENT) + "..." : tame;
  }

  /** A name of lower-case letters, digits and underscores that begins with a letter. */
  static String name(String text) {
    String plain =
        text.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "_").replaceAll("^_+|_+$", "");
    String cut = plain.substring(0, Math.min(LONGEST_NAME, plain.length()));
    return "box" + (cut.isEmpty() ? "" : "_" + cut);
  }
}
