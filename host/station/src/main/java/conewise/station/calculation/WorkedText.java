package conewise.station.calculation;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.calculation.Worked.Cell;
import conewise.station.calculation.Worked.Column;
import conewise.station.calculation.Worked.Row;
import conewise.station.calculation.Worked.Table;
import conewise.station.card.Figures;
import conewise.station.card.PlainText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What was worked out, as plain text of at most 80 columns. */
public final class WorkedText {
  private static final int WIDTH = 80;
  private static final int LABEL = 42;
  private static final double NOTHING = 1e-10;
  private static final String GAP = "  ";

  private WorkedText() {}

  /** The lines. */
  public static List<String> write(Worked worked) {
    List<String> lines = new ArrayList<>();
    worked.rows().forEach(row -> lines.addAll(row(row)));
    worked.table().ifPresent(table -> table(lines, table));
    for (String remark : worked.remarks()) {
      lines.add("");
      lines.addAll(PlainText.wrap(remark, WIDTH));
    }
    return lines;
  }

  private static List<String> row(Row row) {
    String value =
        row.value() instanceof Found<Double> found
            ? amount(found.value(), row.unit())
            : ((NoResult<Double>) row.value()).because();
    String other =
        row.other().map(each -> " (" + amount(each.value(), each.unit()) + ")").orElse("");
    return List.of(String.format(Locale.ROOT, "%-" + LABEL + "s%s%s", row.label(), value, other));
  }

  /** A value with its unit, four digits of it. */
  public static String amount(double value, String unit) {
    return (plain(value) + " " + unit).strip();
  }

  /** What rounding leaves of nothing is nothing: no figure here is that small. */
  private static String plain(double value) {
    return Figures.plain(Math.abs(value) < NOTHING ? 0 : value);
  }

  private static void table(List<String> lines, Table table) {
    List<List<String>> texts = new ArrayList<>();
    texts.add(table.columns().stream().map(WorkedText::head).toList());
    table.cells().forEach(row -> texts.add(row.stream().map(WorkedText::words).toList()));
    int[] widths = new int[table.columns().size()];
    for (List<String> row : texts) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    lines.add("");
    texts.forEach(row -> lines.addAll(line(row, widths)));
  }

  /** Numbers end alike, the last column begins alike and goes on beneath itself. */
  private static List<String> line(List<String> row, int[] widths) {
    StringBuilder head = new StringBuilder();
    int last = row.size() - 1;
    for (int i = 0; i < last; i++) {
      head.append(GAP).append(" ".repeat(widths[i] - row.get(i).length())).append(row.get(i));
    }
    head.append(GAP);
    int indent = head.length();
    List<String> lines = new ArrayList<>();
    for (String part : PlainText.wrap(row.get(last), WIDTH - indent)) {
      lines.add(lines.isEmpty() ? head + part : " ".repeat(indent) + part);
    }
    return lines;
  }

  private static String head(Column column) {
    return (column.label() + " " + column.unit()).strip();
  }

  /** What stands in a table, four digits of a number. */
  public static String words(Cell cell) {
    return cell instanceof Worked.Value number
        ? plain(number.value())
        : ((Worked.Words) cell).text();
  }
}
