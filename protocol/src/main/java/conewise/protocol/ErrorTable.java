package conewise.protocol;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The rows of {@code errors.csv}, by name. */
final class ErrorTable {
  private static final String HEADER = "number,name,cause,next_step";

  /** One error as the table has it. */
  record Row(int number, String name, String cause, String nextStep) {}

  private static final Map<String, Row> ROWS = parse(packagedText());

  private ErrorTable() {}

  static Row row(String name) {
    Row row = ROWS.get(name);
    if (row == null) {
      throw new IllegalStateException("errors.csv has no row named " + name);
    }
    return row;
  }

  static List<Row> rows() {
    return List.copyOf(ROWS.values());
  }

  private static String packagedText() {
    try (InputStream in = ErrorTable.class.getResourceAsStream("errors.csv")) {
      if (in == null) {
        throw new IllegalStateException(
            "errors.csv is not packaged beside " + ErrorTable.class.getName());
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("errors.csv cannot be read: " + e.getMessage(), e);
    }
  }

  static Map<String, Row> parse(String csv) {
    List<String> lines = csv.lines().toList();
    if (lines.isEmpty() || !lines.get(0).equals(HEADER)) {
      throw new IllegalStateException("errors.csv must begin with the line " + HEADER);
    }
    Map<String, Row> rows = new LinkedHashMap<>();
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = cells(line);
      if (cells.size() != 4 || !cells.get(0).matches("[1-9][0-9]")) {
        throw new IllegalStateException(
            "errors.csv must hold a number of two digits and three texts, not: " + line);
      }
      Row row = new Row(Integer.parseInt(cells.get(0)), cells.get(1), cells.get(2), cells.get(3));
      if (rows.put(row.name(), row) != null) {
        throw new IllegalStateException("errors.csv names " + row.name() + " twice");
      }
    }
    return rows;
  }

  /**
   * Cells of one line; a cell may stand between double quotes, which are then not part of it (RFC
   * 4180).
   */
  private static List<String> cells(String line) {
    List<String> cells = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(c);
      }
    }
    cells.add(cell.toString());
    return cells;
  }
}
