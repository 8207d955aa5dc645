package conewise.station.page;

import static conewise.station.report.Html.text;

import conewise.analysis.judgement.Check;
import conewise.analysis.outcome.Outcome.Found;
import conewise.station.card.Figures;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.records.Overruling;
import conewise.station.report.OverrulingHtml;
import conewise.station.report.SignDrawing;
import java.util.List;

/** The label that goes onto a box. */
final class LabelPage {
  private static final List<String> LABELLED =
      List.of("tuning", "resonance", "dc-resistance", "rated-impedance");

  /** An overruling of one line, of two, takes the room of some of them. */
  private static final int ONE_LINE = 42;

  /** So many letters of an overruling fit; a reason that is longer stands on the report. */
  private static final int OVERRULED_MOST = 84;

  private LabelPage() {}

  /**
   * A label for the box: number, verdict, tuning, load, date.
   *
   * @param overruled what people decided otherwise; the last of it stands beside the verdict
   */
  static String of(JobCard card, List<Overruling> overruled) {
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    StringBuilder html =
        new StringBuilder("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">");
    html.append("<title>Label ").append(text(card.serial().orElse("")));
    html.append("</title><link rel=\"stylesheet\" href=\"/label.css\"></head><body class=\"");
    html.append(sign.machineWord()).append("\"><main>");
    html.append(SerialHeading.of(card.serial().orElse("")));
    html.append("<p class=\"verdict\">").append(SignDrawing.of(sign)).append(sign.word());
    html.append("</p>");
    String beside = overruled.isEmpty() ? "" : last(overruled);
    if (!beside.isEmpty()) {
      html.append("<p class=\"overruled").append(beside.length() > OVERRULED_MOST ? " long" : "");
      html.append("\">").append(text(beside)).append("</p>");
    }
    html.append("<p class=\"plan\">").append(text(card.plan().name())).append("</p>");
    card.verdict().checks().stream()
        .filter(check -> LABELLED.stream().anyMatch(check.id()::startsWith))
        .filter(check -> check.reading() instanceof Found)
        .limit(figuresBeside(beside))
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

  /** So many figures of the box fit beside what people decided otherwise. */
  private static int figuresBeside(String overruled) {
    return overruled.isEmpty()
        ? LABELLED.size()
        : overruled.length() <= ONE_LINE ? 2 : overruled.length() <= OVERRULED_MOST ? 1 : 0;
  }

  private static String last(List<Overruling> overruled) {
    Overruling last = overruled.get(overruled.size() - 1);
    String whole = OverrulingHtml.words(last);
    return whole.length() <= OVERRULED_MOST
        ? whole
        : "To "
            + VerdictSign.of(last.decision()).word()
            + ". Overruled by "
            + last.by()
            + "; the reason stands on the report.";
  }

  private static String value(Check check) {
    return Figures.value(((Found<Check.Reading>) check.reading()).value());
  }
}
