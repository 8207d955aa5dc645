package conewise.station.chart;

import conewise.analysis.model.Circuit;
import conewise.station.chart.LeadTree.Branch;
import java.util.List;

/** A part of a wiring with its room: a rectangle that a lead enters at the left, leaves right. */
interface WiringBlock {
  double width();

  double height();

  /** How far below its top the lead enters. */
  double entry();

  /** How far below its top the lead leaves. */
  double exit();

  /** Draws it and the leads within. */
  void draw(Placed at);

  /**
   * Where a block is drawn.
   *
   * @param pen with what
   * @param x its left edge
   * @param y its upper edge
   */
  record Placed(WiringPen pen, double x, double y) {
    Placed by(double dx, double dy) {
      return new Placed(pen, x + dx, y + dy);
    }
  }

  /**
   * The block of a branch.
   *
   * @param most the width that it may have, about: a series goes on in another row beyond
   */
  static WiringBlock of(Branch branch, double most, CoilSize size, CoilWords words) {
    if (branch.parts().isEmpty()) {
      return new LeafBlock(branch, size.width(), words);
    }
    boolean series = branch.circuit() instanceof Circuit.Series;
    double room = most - 2 * (series ? SeriesBlock.TURN : ParallelBlock.REACH);
    List<WiringBlock> parts =
        branch.parts().stream().map(part -> of(part, room, size, words)).toList();
    return series ? SeriesBlock.of(branch, parts, room) : new ParallelBlock(branch, parts);
  }
}
