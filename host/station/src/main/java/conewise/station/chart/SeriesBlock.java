package conewise.station.chart;

import conewise.station.chart.LeadTree.Branch;
import java.util.ArrayList;
import java.util.List;

/** Parts one after the other, in rows as a text has them. */
record SeriesBlock(Branch branch, List<Row> rows) implements WiringBlock {
  /** Beside the rows, where a lead turns to the next one. */
  static final double TURN = 16;

  /** From part to part: room for a letter. */
  private static final double BETWEEN = 38;

  /** From row to row: room for the lead that goes back. */
  private static final double LANE = 24;

  /** Some parts beside one another; the first of them is a number of the whole series. */
  record Row(List<WiringBlock> parts, int first) {
    double width() {
      return parts.stream().mapToDouble(WiringBlock::width).sum() + BETWEEN * (parts.size() - 1);
    }

    /** The line on which leads enter the parts, from its top. */
    double axis() {
      return parts.stream().mapToDouble(WiringBlock::entry).max().orElseThrow();
    }

    /** How much lower the last part is left than entered. */
    double drop() {
      WiringBlock last = parts.get(parts.size() - 1);
      return last.exit() - last.entry();
    }

    double height() {
      double below = parts.stream().mapToDouble(p -> p.height() - p.entry()).max().orElseThrow();
      return axis() + below;
    }
  }

  static SeriesBlock of(Branch branch, List<WiringBlock> parts, double room) {
    List<Row> rows = new ArrayList<>();
    List<WiringBlock> row = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      row.add(parts.get(i));
      boolean last = i + 1 == parts.size();
      int first = i + 1 - row.size();
      double next = last ? 0 : new Row(row, first).width() + BETWEEN + parts.get(i + 1).width();
      if (last || next > room) {
        rows.add(new Row(List.copyOf(row), first));
        row.clear();
      }
    }
    return new SeriesBlock(branch, List.copyOf(rows));
  }

  private double turn() {
    return rows.size() > 1 ? TURN : 0;
  }

  @Override
  public double width() {
    return 2 * turn() + rows.stream().mapToDouble(Row::width).max().orElseThrow();
  }

  @Override
  public double height() {
    return top(rows.size()) - LANE;
  }

  private double top(int row) {
    return rows.subList(0, row).stream().mapToDouble(each -> each.height() + LANE).sum();
  }

  @Override
  public double entry() {
    return rows.get(0).axis();
  }

  @Override
  public double exit() {
    int last = rows.size() - 1;
    return top(last) + rows.get(last).axis() + rows.get(last).drop();
  }

  @Override
  public void draw(Placed at) {
    for (int i = 0; i < rows.size(); i++) {
      row(at.by(turn(), top(i)), rows.get(i));
      if (i > 0) {
        back(at, i);
      }
    }
    WiringPen pen = at.pen();
    Row last = rows.get(rows.size() - 1);
    double end = at.x() + turn() + last.width();
    pen.lead(branch.from(), at.x(), at.y() + entry(), at.x() + turn(), at.y() + entry());
    pen.lead(branch.to(), end, at.y() + exit(), at.x() + width(), at.y() + exit());
  }

  private void row(Placed at, Row row) {
    double x = 0;
    double y = at.y() + row.axis();
    for (int i = 0; i < row.parts().size(); i++) {
      WiringBlock part = row.parts().get(i);
      part.draw(at.by(x, row.axis() - part.entry()));
      x += part.width();
      if (i + 1 < row.parts().size()) {
        int lead = branch.parts().get(row.first() + i).to();
        double leaves = y + part.exit() - part.entry();
        double half = at.x() + x + BETWEEN / 2;
        at.pen().lead(lead, at.x() + x, leaves, half, leaves, half, y, at.x() + x + BETWEEN, y);
        at.pen().letter(lead, half, y);
        x += BETWEEN;
      }
    }
  }

  /** The lead from the end of the row before to the beginning of a row. */
  private void back(Placed at, int row) {
    Row before = rows.get(row - 1);
    int lead = branch.parts().get(rows.get(row).first()).from();
    double end = at.x() + turn() + before.width();
    double from = at.y() + top(row - 1) + before.axis() + before.drop();
    double to = at.y() + top(row) + rows.get(row).axis();
    double lane = at.y() + top(row) - LANE / 2;
    double left = at.x();
    at.pen()
        .lead(
            lead,
            end,
            from,
            end + TURN,
            from,
            end + TURN,
            lane,
            left,
            lane,
            left,
            to,
            left + TURN,
            to);
    at.pen().letter(lead, (left + end) / 2, lane);
  }
}
