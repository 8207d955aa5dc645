package conewise.station.chart;

import conewise.station.chart.LeadTree.Branch;
import java.util.List;

/** Parts one beneath the other between two upright leads. */
record ParallelBlock(Branch branch, List<WiringBlock> parts) implements WiringBlock {
  /** From an upright lead to the parts: room for a letter. */
  static final double REACH = 34;

  private static final double BETWEEN = 6;

  @Override
  public double width() {
    return 2 * REACH + parts.stream().mapToDouble(WiringBlock::width).max().orElseThrow();
  }

  @Override
  public double height() {
    return top(parts.size()) - BETWEEN;
  }

  /** Where a part begins; one past the last, where a further one would. */
  private double top(int part) {
    return parts.subList(0, part).stream().mapToDouble(each -> each.height() + BETWEEN).sum();
  }

  @Override
  public double entry() {
    int last = parts.size() - 1;
    return (parts.get(0).entry() + top(last) + parts.get(last).entry()) / 2;
  }

  @Override
  public double exit() {
    int last = parts.size() - 1;
    return (parts.get(0).exit() + top(last) + parts.get(last).exit()) / 2;
  }

  @Override
  public void draw(Placed at) {
    WiringPen pen = at.pen();
    double right = at.x() + width();
    int last = parts.size() - 1;
    double lastTop = at.y() + top(last);
    pen.lead(
        branch.from(),
        at.x(),
        at.y() + parts.get(0).entry(),
        at.x(),
        lastTop + parts.get(last).entry());
    pen.lead(
        branch.to(), right, at.y() + parts.get(0).exit(), right, lastTop + parts.get(last).exit());
    for (int i = 0; i <= last; i++) {
      WiringBlock part = parts.get(i);
      double in = at.y() + top(i) + part.entry();
      double out = at.y() + top(i) + part.exit();
      double end = at.x() + REACH + part.width();
      pen.lead(branch.from(), at.x(), in, at.x() + REACH, in);
      pen.lead(branch.to(), end, out, right, out);
      part.draw(at.by(REACH, top(i)));
      pen.letter(branch.from(), at.x() + REACH / 2 + 2, in);
      pen.letter(branch.to(), end + REACH / 2 - 2, out);
      pen.joint(at.x(), in);
      pen.joint(right, out);
    }
  }
}
