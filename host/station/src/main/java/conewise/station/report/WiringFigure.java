package conewise.station.report;

import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.Figures;
import conewise.station.chart.Lead;
import conewise.station.chart.WiringPicture;
import java.util.Set;

/** A plan's wiring as a figure; the page needs wiring.css. */
final class WiringFigure {
  private WiringFigure() {}

  /**
   * The picture.
   *
   * @param suspected coils to be marked
   */
  static String of(PlannedBox plan, Set<Coil> suspected) {
    return "<figure class=\"wiring\">\n"
        + WiringPicture.draw(plan.wiring(), coil -> ohm(plan, coil), suspected, "wiring")
        + "</figure>\n";
  }

  /** The leads as a list: the same letters as in the picture. */
  static String leads(PlannedBox plan) {
    StringBuilder html = new StringBuilder("<ul class=\"leads\">\n");
    for (Lead lead : WiringPicture.leads(plan.wiring())) {
      html.append("<li><b>").append(lead.letter()).append("</b> ");
      html.append(Html.text(lead.colour().words() + ": " + String.join("; ", lead.ends())));
      html.append("</li>\n");
    }
    return html.append("</ul>\n").toString();
  }

  private static String ohm(PlannedBox plan, Coil coil) {
    double value = plan.kindOf(coil.driver()).coilOhm().get(coil.number() - 1).value();
    return Figures.plain(value) + " ohm";
  }
}
