package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import conewise.station.card.Mark;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** |Z| over logarithmic frequency in characters; never wider than 80 columns. */
public final class TerminalChart {
  private static final int LEFT = 8;
  private static final int COLUMNS = 70;
  private static final int ROWS = 14;
  private static final double HEADROOM = 1.12;

  private final Drawing drawing;
  private final boolean unicode;
  private final FrequencyAxis frequency;
  private final OhmAxis ohm;

  private TerminalChart(Drawing drawing, boolean unicode) {
    this.drawing = drawing;
    this.unicode = unicode;
    this.frequency = drawing.frequencyAxis();
    this.ohm = OhmAxis.upTo(drawing.largestOhm() * HEADROOM);
  }

  /**
   * Draws.
   *
   * @param drawing what to draw
   * @param unicode true for braille dots and lines, false for plain ASCII
   * @return the lines, from the top
   */
  public static List<String> draw(Drawing drawing, boolean unicode) {
    return new TerminalChart(drawing, unicode).draw();
  }

  private List<String> draw() {
    char[][] cells = new char[ROWS][COLUMNS];
    plot(cells);
    drawing.marks().stream()
        .filter(mark -> frequency.holds(mark.frequencyHz()))
        .forEach(mark -> mark(cells, mark));
    List<String> lines = new ArrayList<>();
    lines.add("  |Z|, ohm");
    for (int row = 0; row < ROWS; row++) {
      lines.add(ohmLabel(row) + (unicode ? '┤' : '|') + new String(cells[row]).stripTrailing());
    }
    lines.addAll(axis());
    band().ifPresent(lines::add);
    legend().ifPresent(lines::add);
    return lines;
  }

  private void plot(char[][] cells) {
    DotGrid grid = new DotGrid(COLUMNS, ROWS, unicode);
    int last = -1;
    for (int x = 0; x < grid.width(); x++) {
      double modulus = modulusAt(frequency.frequencyHz(x / (grid.width() - 1.0)));
      int y = (int) Math.round(ohm.position(modulus) * (grid.height() - 1));
      int from = last < 0 || y == last ? y : last + Integer.signum(y - last);
      grid.vertical(x, from, y);
      last = y;
    }
    for (int row = 0; row < ROWS; row++) {
      for (int column = 0; column < COLUMNS; column++) {
        cells[row][column] = grid.character(column, row);
      }
    }
  }

  /** |Z| between two points: straight over the logarithm of frequency. */
  private double modulusAt(double hz) {
    List<ImpedancePoint> points = drawing.points();
    int next = 0;
    while (next < points.size() && points.get(next).frequencyHz() < hz) {
      next++;
    }
    if (next == 0 || next == points.size()) {
      return points.get(Math.min(next, points.size() - 1)).modulusOhm();
    }
    ImpedancePoint before = points.get(next - 1);
    ImpedancePoint after = points.get(next);
    double part =
        Math.log(hz / before.frequencyHz()) / Math.log(after.frequencyHz() / before.frequencyHz());
    return before.modulusOhm() + part * (after.modulusOhm() - before.modulusOhm());
  }

  private void mark(char[][] cells, Mark mark) {
    boolean peak = mark.kind() == Mark.Kind.PEAK;
    int row = ROWS - 1 - (int) Math.round(ohm.position(mark.modulusOhm()) * (ROWS - 1));
    int place = Math.max(0, Math.min(ROWS - 1, row + (peak ? -1 : 1)));
    cells[place][column(mark.frequencyHz())] = sign(mark.kind());
  }

  private char sign(Mark.Kind kind) {
    boolean peak = kind == Mark.Kind.PEAK;
    if (unicode) {
      return peak ? '▼' : '▲';
    }
    return peak ? 'v' : '^';
  }

  private String ohmLabel(int row) {
    for (double tick : ohm.ticksOhm()) {
      if (ROWS - 1 - (int) Math.round(ohm.position(tick) * (ROWS - 1)) == row) {
        return String.format("%" + (LEFT - 1) + "s ", Figures.plain(tick));
      }
    }
    return " ".repeat(LEFT);
  }

  private List<String> axis() {
    char[] line = new char[COLUMNS];
    Arrays.fill(line, unicode ? '─' : '-');
    StringBuilder numbers = new StringBuilder();
    for (double hz : frequency.ticksHz()) {
      int column = column(hz);
      line[column] = unicode ? '┬' : '+';
      String number = Figures.plain(hz);
      int start = Math.min(COLUMNS - number.length(), column - number.length() / 2);
      if (start >= numbers.length() + (numbers.isEmpty() ? 0 : 1)) {
        numbers.append(" ".repeat(start - numbers.length())).append(number);
      } else if (numbers.isEmpty()) {
        numbers.append(number);
      }
    }
    String unit = numbers.length() + 3 <= COLUMNS ? " Hz" : "";
    return List.of(
        " ".repeat(LEFT) + (unicode ? '└' : '+') + new String(line),
        " ".repeat(LEFT + 1) + numbers + unit);
  }

  private Optional<String> band() {
    return drawing
        .visibleBand(frequency)
        .map(
            band -> {
              int from = column(band.low());
              int to = column(band.high());
              String bar = to == from ? "|" : "[" + "=".repeat(to - from - 1) + "]";
              String name = drawing.allowedLabel();
              String line = " ".repeat(LEFT + 1 + from) + bar + " " + name;
              return line.length() <= LEFT + 1 + COLUMNS
                  ? line
                  : " ".repeat(Math.max(0, LEFT + from - name.length())) + name + " " + bar;
            });
  }

  private Optional<String> legend() {
    if (drawing.marks().isEmpty()) {
      return Optional.empty();
    }
    String text =
        drawing.marks().stream()
            .map(
                mark ->
                    sign(mark.kind())
                        + " "
                        + Figures.plain(mark.frequencyHz())
                        + " Hz "
                        + Figures.plain(mark.modulusOhm())
                        + " ohm")
            .collect(Collectors.joining("   "));
    return Optional.of(" ".repeat(LEFT + 1) + text);
  }

  private int column(double hz) {
    int column = (int) Math.round(frequency.position(hz) * (COLUMNS - 1));
    return Math.max(0, Math.min(COLUMNS - 1, column));
  }
}
