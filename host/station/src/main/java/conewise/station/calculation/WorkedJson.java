package conewise.station.calculation;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.calculation.Worked.Cell;
import conewise.station.calculation.Worked.Column;
import conewise.station.calculation.Worked.Row;
import conewise.station.calculation.Worked.Table;
import java.util.List;

/** What was worked out, for programs; docs/schemas/answer-1.json lays it down. */
public final class WorkedJson {
  private WorkedJson() {}

  /** The answer of a calculation. */
  public static ObjectNode write(Calculation calculation, Worked worked) {
    ObjectNode answer = JsonAnswer.of("work-out", ExitCode.PASS);
    answer.put("calculation", calculation.name());
    ArrayNode figures = answer.putArray("figures");
    worked.rows().forEach(row -> figure(figures.addObject(), row));
    worked.table().ifPresent(table -> table(answer.putArray("table"), table));
    ArrayNode remarks = answer.putArray("remarks");
    worked.remarks().forEach(remarks::add);
    return answer;
  }

  private static void figure(ObjectNode node, Row row) {
    node.put("id", row.id()).put("label", row.label());
    if (row.value() instanceof Found<Double> found) {
      node.put("value", found.value());
    } else if (row.value() instanceof NoResult<Double> none) {
      node.put("no_value_because", none.because());
    }
    node.put("unit", row.unit());
    row.other()
        .ifPresent(
            other -> node.putObject("other").put("value", other.value()).put("unit", other.unit()));
  }

  /** One object a row, by the columns' names. */
  private static void table(ArrayNode rows, Table table) {
    for (List<Cell> cells : table.cells()) {
      ObjectNode row = rows.addObject();
      for (int i = 0; i < cells.size(); i++) {
        Column column = table.columns().get(i);
        if (cells.get(i) instanceof Worked.Value number) {
          row.put(column.id(), number.value());
        } else if (cells.get(i) instanceof Worked.Words words) {
          row.put(column.id(), words.text());
        }
      }
    }
  }
}
