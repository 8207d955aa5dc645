package conewise.station.chart;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.station.chart.LeadTree.Branch;
import conewise.station.chart.WiringBlock.Placed;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/**
 * A wiring from terminal to terminal as one SVG element: every coil with its + and -, every lead
 * with a colour and a letter, coils that are the other way round marked in words. Series runs from
 * left to right and goes on in a further row where it would be too wide, as lines of a text do;
 * parallel parts lie one beneath the other. The page needs the style {@code wiring.css}.
 */
public final class WiringPicture {
  private static final int WIDTH = 760;
  private static final double MARGIN = 84;
  private static final double EDGE = 12;
  private static final double TERMINAL = 14;

  private WiringPicture() {}

  /**
   * Draws.
   *
   * @param wiring the tree of coils; gaps, bridges and resistances may stand in it as well
   * @param noteOf what stands beneath a coil's name, e.g. its resistance; blank for nothing
   * @param id unlike that of any other picture on the page
   */
  public static String draw(Circuit wiring, Function<Coil, String> noteOf, String id) {
    return draw(wiring, new CoilWords(noteOf, Set.of()), WIDTH, id);
  }

  /**
   * The same no wider than it need be, with some coils marked as suspected.
   *
   * @param suspected of the wiring's own coils
   */
  public static String draw(
      Circuit wiring, Function<Coil, String> noteOf, Set<Coil> suspected, String id) {
    return draw(wiring, new CoilWords(noteOf, suspected), 0, id);
  }

  private static String draw(Circuit wiring, CoilWords words, int least, String id) {
    LeadTree tree = new LeadTree(wiring);
    Branch root = tree.root();
    WiringBlock block =
        WiringBlock.of(root, WIDTH - 2 * MARGIN, new CoilSize(wiring, words), words);
    int height = (int) Math.ceil(block.height() + 2 * EDGE);
    // Long names in a deep tree may need more; the picture is then shown smaller.
    int width = Math.max(least, (int) Math.ceil(block.width() + 2 * MARGIN));
    Sheet sheet = new Sheet(width, height, id, "Wiring from terminal to terminal", describe(tree));
    WiringPen pen = new WiringPen(sheet, tree.count());
    double left = (width - block.width()) / 2;
    double right = left + block.width();
    double in = EDGE + block.entry();
    double out = EDGE + block.exit();
    double plusX = left - MARGIN + TERMINAL + EDGE;
    double minusX = right + MARGIN - TERMINAL - EDGE;
    pen.lead(root.from(), plusX, in, left, in);
    pen.lead(root.to(), right, out, minusX, out);
    block.draw(new Placed(pen, left, EDGE));
    pen.letter(root.from(), (plusX + TERMINAL + left) / 2, in);
    pen.letter(root.to(), (minusX - TERMINAL + right) / 2, out);
    pen.terminal(plusX, in, TERMINAL, true);
    pen.terminal(minusX, out, TERMINAL, false);
    pen.name(plusX, in - TERMINAL - 6, "middle", "box +");
    pen.name(minusX, out - TERMINAL - 6, "middle", "box -");
    pen.finish();
    return sheet.end();
  }

  /** The leads, from the box's + terminal to its - terminal: the same letters as in the picture. */
  public static List<Lead> leads(Circuit wiring) {
    return new LeadTree(wiring).leads();
  }

  private static String describe(LeadTree tree) {
    StringBuilder text = new StringBuilder();
    for (Lead lead : tree.leads()) {
      text.append("Lead ").append(lead.letter()).append(", ").append(lead.colour().words());
      text.append(": ").append(String.join("; ", lead.ends())).append(". ");
    }
    return text.toString().strip();
  }
}
