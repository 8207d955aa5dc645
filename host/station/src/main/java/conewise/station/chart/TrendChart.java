package conewise.station.chart;

import conewise.station.card.Figures;
import conewise.station.records.trend.ControlChart;
import conewise.station.records.trend.ControlChart.Signal;
import conewise.station.records.trend.ReadFigure;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * A control chart, as one SVG element or in characters. What is unlike chance has another shape as
 * well as another hue. The page needs the style {@code records.css}.
 */
public final class TrendChart {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 250;
  private static final double LEFT = 62;
  private static final double RIGHT = 640;
  private static final double TOP = 14;
  private static final double BOTTOM = 216;
  private static final int ROWS = 13;
  private static final int COLUMNS = 66;

  /** What a trend is of. */
  public record Things(String one, String many) {}

  /** Boxes. */
  public static final Things BOXES = new Things("box", "boxes");

  /** Readings of one thing. */
  public static final Things READINGS = new Things("reading", "readings");

  private final ControlChart chart;
  private final double low;
  private final double high;
  private final Map<Integer, ControlChart.Kind> signals;

  private TrendChart(ControlChart chart) {
    this.chart = chart;
    double least = chart.figures().stream().mapToDouble(ReadFigure::value).min().orElseThrow();
    double most = chart.figures().stream().mapToDouble(ReadFigure::value).max().orElseThrow();
    double from = Math.min(least, chart.low());
    double to = Math.max(most, chart.high());
    double room =
        to - from > 1e-6 * Math.abs(to) ? 0.06 * (to - from) : Math.max(1e-3, Math.abs(to) * 0.01);
    this.low = from - room;
    this.high = to + room;
    this.signals = chart.signals().stream().collect(Collectors.toMap(Signal::place, Signal::kind));
  }

  /** As SVG; {@code id} is unlike that of any other picture on the page. */
  public static String draw(ControlChart chart, String name, String id) {
    return draw(chart, name, id, BOXES);
  }

  /** The same of other things than boxes. */
  public static String draw(ControlChart chart, String name, String id, Things things) {
    return new TrendChart(chart).svg(name, id, things);
  }

  /** In characters, at most 80 columns. */
  public static List<String> lines(ControlChart chart, boolean unicode) {
    return new TrendChart(chart).text(unicode);
  }

  private String svg(String name, String id, Things things) {
    String unit = chart.figures().get(0).unit();
    Sheet sheet =
        new Sheet(
            WIDTH,
            HEIGHT,
            id,
            "Trend of " + name,
            String.format(
                Locale.ROOT,
                "%d %s in order of time; mean %s, limits %s and %s %s; %d unlike chance.",
                chart.figures().size(),
                things.many(),
                Figures.plain(chart.mean()),
                Figures.plain(chart.low()),
                Figures.plain(chart.high()),
                unit,
                chart.signals().size()));
    level(sheet, "mean", chart.mean(), "mean");
    level(sheet, "limit", chart.high(), "upper limit");
    level(sheet, "limit", chart.low(), "lower limit");
    List<double[]> line = new ArrayList<>();
    for (int i = 0; i < chart.figures().size(); i++) {
      line.add(new double[] {x(i), y(chart.figures().get(i).value())});
    }
    sheet.polyline("steps", line);
    for (int i = 0; i < line.size(); i++) {
      dot(sheet, i, line.get(i));
    }
    sheet.label(LEFT, BOTTOM + 18, "start", "first " + things.one());
    sheet.label(RIGHT, BOTTOM + 18, "end", "last " + things.one());
    sheet.upright((TOP + BOTTOM) / 2, name + (unit.isEmpty() ? "" : ", " + unit));
    return sheet.end();
  }

  private void level(Sheet sheet, String style, double value, String name) {
    sheet.line(style, LEFT, y(value), RIGHT, y(value));
    sheet.label(RIGHT + 8, y(value) + 4, "start", name + " " + Figures.plain(value));
  }

  private void dot(Sheet sheet, int place, double[] at) {
    if (signals.get(place) == ControlChart.Kind.BEYOND) {
      sheet.diamond(at[0], at[1], 6);
    } else {
      boolean shifted = signals.get(place) == ControlChart.Kind.SHIFTED;
      sheet.dot(shifted ? "shifted" : "within", at[0], at[1], shifted ? 4.5 : 2.6);
    }
  }

  private double x(int place) {
    return LEFT + 6 + (RIGHT - LEFT - 12) * place / Math.max(1, chart.figures().size() - 1);
  }

  private double y(double value) {
    return BOTTOM - (value - low) / (high - low) * (BOTTOM - TOP);
  }

  private List<String> text(boolean unicode) {
    char[][] cells = new char[ROWS][COLUMNS];
    for (char[] row : cells) {
      java.util.Arrays.fill(row, ' ');
    }
    java.util.Arrays.fill(cells[row(chart.high())], '-');
    java.util.Arrays.fill(cells[row(chart.low())], '-');
    java.util.Arrays.fill(cells[row(chart.mean())], unicode ? '\u2500' : '=');
    int count = chart.figures().size();
    for (int i = 0; i < count; i++) {
      int column = count == 1 ? 0 : (int) Math.round((COLUMNS - 1.0) * i / (count - 1));
      int row = row(chart.figures().get(i).value());
      cells[row][column] = worse(cells[row][column], sign(i));
    }
    List<String> lines = new ArrayList<>();
    for (int row = 0; row < ROWS; row++) {
      lines.add(String.format("%9s %s", label(row), new String(cells[row])).stripTrailing());
    }
    lines.add(" ".repeat(10) + "o within   x beyond a limit   s eighth or later on one side");
    return lines;
  }

  /** Where several boxes share a place, the one that is unlike chance shows. */
  private static char worse(char there, char sign) {
    return there == 'x' || (there == 's' && sign == 'o') ? there : sign;
  }

  private char sign(int place) {
    ControlChart.Kind kind = signals.get(place);
    return kind == null ? 'o' : kind == ControlChart.Kind.BEYOND ? 'x' : 's';
  }

  private String label(int row) {
    return row == row(chart.mean())
        ? Figures.plain(chart.mean())
        : row == row(chart.high())
            ? Figures.plain(chart.high())
            : row == row(chart.low()) ? Figures.plain(chart.low()) : "";
  }

  private int row(double value) {
    return ROWS - 1 - (int) Math.round((value - low) / (high - low) * (ROWS - 1));
  }
}
