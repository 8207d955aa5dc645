package conewise.station.calculation;

import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a calculation came to.
 *
 * @param rows single figures
 * @param table many of a kind; empty where there are none
 * @param remarks what to know beside it, whole sentences
 */
public record Worked(List<Row> rows, Optional<Table> table, List<String> remarks) {

  /**
   * One figure.
   *
   * @param id a stable name for programs
   * @param label what it is, for people
   * @param value what it came to
   * @param unit of the value; blank where it has none
   * @param other the same in the other system of units, where that is usual
   */
  public record Row(
      String id, String label, Outcome<Double> value, String unit, Optional<Other> other) {}

  /** A value in another unit. */
  public record Other(double value, String unit) {}

  /**
   * Many of a kind.
   *
   * @param columns what each column holds
   * @param cells row by row, as many in each as there are columns
   */
  public record Table(List<Column> columns, List<List<Cell>> cells) {
    public Table {
      columns = List.copyOf(columns);
      cells = cells.stream().map(List::copyOf).toList();
      for (List<Cell> row : cells) {
        if (row.size() != columns.size()) {
          throw new IllegalArgumentException(
              "a row has " + row.size() + " cells; it must have " + columns.size());
        }
      }
    }
  }

  /**
   * A column.
   *
   * @param id a stable name for programs
   * @param label for people
   * @param unit of its numbers; blank where it has none
   */
  public record Column(String id, String label, String unit) {}

  /** What stands in a table. */
  public sealed interface Cell {}

  /** A number. */
  public record Value(double value) implements Cell {}

  /** Words, also in the place of a number that there is not. */
  public record Words(String text) implements Cell {}

  public Worked {
    rows = List.copyOf(rows);
    remarks = List.copyOf(remarks);
  }

  /** Gathers an answer. */
  static final class Sheet {
    private final List<Row> rows = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private Optional<Table> table = Optional.empty();

    Sheet row(String id, String label, double value, String unit) {
      return row(id, label, Outcome.found(value), unit, Optional.empty());
    }

    Sheet row(String id, String label, double value, String unit, double other, String otherUnit) {
      return row(id, label, Outcome.found(value), unit, Optional.of(new Other(other, otherUnit)));
    }

    Sheet row(String id, String label, Outcome<Double> value, String unit, Optional<Other> other) {
      rows.add(new Row(id, label, value, unit, other));
      return this;
    }

    Sheet table(List<Column> columns, List<List<Cell>> cells) {
      table = Optional.of(new Table(columns, cells));
      return this;
    }

    Sheet remark(String sentence) {
      remarks.add(sentence);
      return this;
    }

    Worked done() {
      return new Worked(rows, table, remarks);
    }
  }
}
