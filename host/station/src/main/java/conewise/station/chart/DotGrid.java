package conewise.station.chart;

/**
 * A field of dots that is written as characters: eight dots a character in braille, or one in
 * ASCII.
 */
final class DotGrid {
  private static final int BRAILLE_BLANK = 0x2800;

  /** Bit of each dot of a braille character, by row and column (Unicode, block 2800 to 28FF). */
  private static final int[][] BRAILLE_BIT = {
    {0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}
  };

  private final boolean[][] dots;
  private final int perColumn;
  private final int perRow;

  DotGrid(int columns, int rows, boolean unicode) {
    this.perColumn = unicode ? 2 : 1;
    this.perRow = unicode ? 4 : 1;
    this.dots = new boolean[rows * perRow][columns * perColumn];
  }

  int width() {
    return dots[0].length;
  }

  int height() {
    return dots.length;
  }

  /** Sets every dot of column x between two heights, counted from the bottom. */
  void vertical(int x, int fromY, int toY) {
    for (int y = Math.min(fromY, toY); y <= Math.max(fromY, toY); y++) {
      dots[dots.length - 1 - y][x] = true;
    }
  }

  char character(int column, int row) {
    if (perColumn == 1) {
      return dots[row][column] ? '*' : ' ';
    }
    int bits = 0;
    for (int y = 0; y < perRow; y++) {
      for (int x = 0; x < perColumn; x++) {
        bits |= dots[row * perRow + y][column * perColumn + x] ? BRAILLE_BIT[y][x] : 0;
      }
    }
    return bits == 0 ? ' ' : (char) (BRAILLE_BLANK + bits);
  }
}
