package conewise.station.page;

import static conewise.station.report.Html.text;

import conewise.analysis.judgement.Check;
import conewise.analysis.outcome.Outcome.Found;
import conewise.station.card.Figures;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.report.SignDrawing;
import java.util.List;

/** The label that goes onto a box. */
final class LabelPage {
  private static final List<String> LABELLED =
      List.of("tuning", "resonance", "dc-resistance", "rated-impedance");

  private static final int SHORT = 14;
  private static final int MIDDLING = 26;

  private LabelPage() {}

  /** A label for the box: number, verdict, tuning, load, date. */
  static String of(JobCard card) {
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    StringBuilder html =
        new StringBuilder("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">");
    html.append("<title>Label ").append(text(card.serial().orElse("")));
    html.append("</title><link rel=\"stylesheet\" href=\"/label.css\"></head><body class=\"");
    html.append(sign.machineWord()).append("\"><main><h1 class=\"").append(size(card));
    html.append("\">").append(text(card.serial().orElse("")));
    html.append("</h1><p class=\"verdict\">").append(SignDrawing.of(sign)).append(sign.word());
    html.append("</p><p class=\"plan\">").append(text(card.plan().name())).append("</p>");
    card.verdict().checks().stream()
        .filter(check -> LABELLED.stream().anyMatch(check.id()::startsWith))
        .filter(check -> check.reading() instanceof Found)
        .forEach(
            check ->
                html.append("<p>")
                    .append(text(check.title()))
                    .append(' ')
                    .append(text(value(check)))
                    .append("</p>"));
    card.facts().stream()
        .filter(fact -> fact.label().equals("Date"))
        .forEach(fact -> html.append("<p>").append(text(fact.text())).append("</p>"));
    return html.append("</main></body></html>\n").toString();
  }

  /** Long numbers are written smaller: all of it must fit on the label. */
  private static String size(JobCard card) {
    int letters = card.serial().orElse("").length();
    return letters <= SHORT ? "short" : letters <= MIDDLING ? "middling" : "long";
  }

  private static String value(Check check) {
    return Figures.value(((Found<Check.Reading>) check.reading()).value());
  }
}
