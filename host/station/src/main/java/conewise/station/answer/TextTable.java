package conewise.station.answer;

import conewise.station.card.PlainText;
import java.util.ArrayList;
import java.util.List;

/**
 * Rows of text under their heads, each column as wide as its longest cell; what is left of 80
 * columns is the last one's, whose text goes on below itself.
 */
public final class TextTable {
  private static final int WIDTH = 80;
  private static final int LEAST_LAST = 20;

  private final List<List<String>> rows = new ArrayList<>();

  /** A table with these heads. */
  public TextTable(String... heads) {
    row(heads);
  }

  /** Adds a row of as many cells as there are heads. */
  public void row(String... cells) {
    List<String> tame = new ArrayList<>();
    for (String cell : cells) {
      tame.add(PlainText.tame(cell));
    }
    rows.add(tame);
  }

  /** The lines. */
  public List<String> lines() {
    int last = rows.get(0).size() - 1;
    int[] widths = new int[last];
    int taken = 0;
    for (int column = 0; column < last; column++) {
      for (List<String> row : rows) {
        widths[column] = Math.max(widths[column], row.get(column).length());
      }
      taken += widths[column] + 2;
    }
    List<String> lines = new ArrayList<>();
    for (List<String> row : rows) {
      StringBuilder lead = new StringBuilder();
      for (int column = 0; column < last; column++) {
        lead.append(row.get(column));
        lead.append(" ".repeat(widths[column] + 2 - row.get(column).length()));
      }
      for (String part : PlainText.wrap(row.get(last), Math.max(LEAST_LAST, WIDTH - taken))) {
        lines.add((lead + part).stripTrailing());
        lead = new StringBuilder(" ".repeat(taken));
      }
    }
    return lines;
  }
}
