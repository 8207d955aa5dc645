package conewise.station.chart;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.station.chart.LeadTree.Branch;

/** A coil with its name above and a note below; or what stands in its place. */
record LeafBlock(Branch branch, double width, CoilWords words) implements WiringBlock {
  private static final double NAME = 16;
  private static final double SYMBOL = 44;
  private static final double NOTE = 18;
  private static final double MIDDLE = NAME + SYMBOL / 2;

  @Override
  public double height() {
    return NAME + SYMBOL + NOTE;
  }

  @Override
  public double entry() {
    return MIDDLE;
  }

  @Override
  public double exit() {
    return MIDDLE;
  }

  @Override
  public void draw(Placed at) {
    double centre = at.x() + width / 2;
    double y = at.y() + MIDDLE;
    WiringPen pen = at.pen();
    if (branch.circuit() instanceof Coil coil) {
      if (words.isSuspected(coil)) {
        pen.frame(at.x() - 5, at.y(), at.x() + width + 5, at.y() + height());
      }
      pen.coil(at.x(), at.x() + width, y, coil.reversed());
      pen.name(centre, at.y() + NAME - 1, "middle", words.name(coil));
      String which = "coil " + coil.number();
      String note = words.note(coil);
      pen.note(centre, y + SYMBOL / 2 + 9, note.isEmpty() ? which : which + ", " + note);
    } else if (branch.circuit() instanceof Circuit.Resistance resistance) {
      pen.other(at.x(), at.x() + width, y, "resistance");
      pen.name(centre, at.y() + NAME - 1, "middle", resistance.name());
    } else if (branch.circuit() instanceof Circuit.Bridge) {
      pen.other(at.x(), at.x() + width, y, "bridge");
      pen.name(centre, at.y() + NAME - 1, "middle", "short");
    } else {
      pen.other(at.x(), at.x() + width, y, "gap");
      pen.name(centre, at.y() + NAME - 1, "middle", "open");
    }
  }
}
