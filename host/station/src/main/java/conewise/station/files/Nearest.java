package conewise.station.files;

import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;

/** The allowed word that a mistaken one was probably meant to be. */
public final class Nearest {

  /** Words longer than this are compared by their beginning only, so that no file can cost time. */
  private static final int LONGEST = 64;

  private Nearest() {}

  /**
   * The allowed word at the smallest edit distance, when that is at most a third of the longer of
   * the two words (and so a slip of the hand rather than another word).
   *
   * @param word what was found
   * @param allowed the words that would have been right
   * @return the nearest one, empty when none is near
   */
  public static Optional<String> to(String word, Collection<String> allowed) {
    return allowed.stream()
        .min(Comparator.comparingInt(candidate -> distance(word, candidate)))
        .filter(
            candidate ->
                distance(word, candidate) <= Math.max(word.length(), candidate.length()) / 3);
  }

  /**
   * The number of single insertions, deletions and replacements between two words (V. I.
   * Levenshtein, Soviet Physics Doklady 10(8), 1966), by the usual row-by-row recurrence.
   */
  static int distance(String left, String right) {
    String first = left.substring(0, Math.min(LONGEST, left.length()));
    String second = right.substring(0, Math.min(LONGEST, right.length()));
    int[] row = new int[second.length() + 1];
    for (int j = 0; j < row.length; j++) {
      row[j] = j;
    }
    for (int i = 1; i <= first.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j < row.length; j++) {
        int replaced = diagonal + (first.charAt(i - 1) == second.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
      }
    }
    return row[second.length()];
  }
}
