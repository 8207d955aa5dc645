package conewise.station.report;

import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import conewise.station.chart.Lead;
import conewise.station.chart.WiringPicture;
import conewise.station.prediction.CurveWords;
import conewise.station.prediction.FaultGroup;
import conewise.station.prediction.NamedProspect;
import conewise.station.prediction.PredictionAnswer;
import conewise.station.prediction.SlipRow;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A prediction as one HTML page: the wiring, the curves of good box and faults, the resistances,
 * and what the terminals never show. No script, nothing fetched, all text escaped; the same
 * prediction always gives the same bytes.
 */
public final class PredictionPage {
  private final StringBuilder html = new StringBuilder(262_144);
  private final PredictionAnswer answer;
  private final PlannedBox plan;

  private PredictionPage(PredictionAnswer answer) {
    this.answer = answer;
    plan = answer.prediction().plan();
  }

  /** The page. */
  public static String write(PredictionAnswer answer) {
    PredictionPage page = new PredictionPage(answer);
    page.begin();
    page.summary();
    page.wiring();
    page.curves();
    page.resistances();
    page.unseen();
    page.hidden();
    return page.add("</main>\n</body>\n</html>\n").html.toString();
  }

  private void begin() {
    add("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    text(plan.name()).add(", prediction</title>\n<style>\n");
    add(PageStyle.named("job-card.css")).add(PageStyle.named("wiring.css"));
    add(PageStyle.named("prediction.css"));
    add("</style>\n</head>\n<body class=\"prediction\">\n<main>\n<header>\n");
    add("<p class=\"kind\"><span>Conewise, prediction before the box is built</span></p>\n<h1>");
    text(plan.name()).add("</h1>\n</header>\n");
  }

  private void summary() {
    add("<section>\n<h2>What two terminals will show of this box</h2>\n<ul class=\"shown\">\n");
    for (Telling.Kind kind : Telling.Kind.values()) {
      List<NamedProspect> those = answer.told(kind);
      if (!those.isEmpty()) {
        add("<li>").told(kind, kind.words()).add(": ");
        text(those.stream().map(NamedProspect::name).collect(Collectors.joining(", ")));
        add("</li>\n");
      }
    }
    add("</ul>\n<p class=\"reason\">");
    text(answer.method()).add("</p>\n</section>\n");
  }

  /** A sign that goes without colour, and the words. */
  private PredictionPage told(Telling.Kind kind, String words) {
    String sign =
        switch (kind) {
          case SURELY, OPEN -> "&#9679;";
          case PERHAPS -> "&#9680;";
          case NEVER -> "&#9675;";
        };
    add("<span class=\"told\"><span>").add(sign).add("</span> ");
    return text(words).add("</span>");
  }

  private void wiring() {
    add("<section>\n<h2>The wiring, from terminal to terminal</h2>\n");
    add(WiringFigure.of(plan, Set.of()));
    add("<table>\n<thead><tr><th scope=\"col\">Lead</th><th scope=\"col\">Colour</th>");
    add("<th scope=\"col\">Joins</th></tr></thead>\n<tbody>\n");
    for (Lead lead : WiringPicture.leads(plan.wiring())) {
      add("<tr><th scope=\"row\">").add(lead.letter()).add("</th>");
      cell(lead.colour().words());
      cell(String.join("; ", lead.ends()));
      add("</tr>\n");
    }
    add("</tbody>\n</table>\n</section>\n");
  }

  private void curves() {
    PredictionPictures pictures = new PredictionPictures(answer);
    add("<section>\n<h2>The curves at a glance</h2>\n").add(pictures.overview());
    add("</section>\n<section>\n<h2>All curves</h2>\n<p><b>good</b> as planned: ");
    text(answer.good()).add(".</p>\n");
    for (FaultGroup group : FaultGroup.values()) {
      List<NamedProspect> those = answer.of(group);
      if (!those.isEmpty()) {
        add("<h3>").text(group.title()).add("</h3>\n").add(pictures.panels(group));
        table(those);
      }
    }
    add("</section>\n");
  }

  private void table(List<NamedProspect> those) {
    add("<table>\n<thead><tr><th scope=\"col\">Curve</th><th scope=\"col\">Fault</th>");
    add("<th scope=\"col\">Shows</th><th scope=\"col\">Told from a good box</th></tr></thead>\n");
    add("<tbody>\n");
    for (NamedProspect each : those) {
      Telling telling = each.prospect().telling();
      add("<tr><th scope=\"row\">").add(each.name()).add("</th>");
      cell(each.faults());
      cell(answer.shows(each));
      add("<td class=\"tell\">")
          .told(telling.kind(), telling.kind().words())
          .add("<span class=\"reason\">");
      text(CurveWords.counts(telling)).add("</span></td></tr>\n");
    }
    add("</tbody>\n</table>\n");
  }

  private void resistances() {
    add("<section>\n<h2>What an ohmmeter at the terminals reads</h2>\n<p>A right box: ");
    text(answer.allowed()).add(". ").text(PredictionAnswer.POLARITY_AND_DC).add("</p>\n<table>\n");
    add("<thead><tr><th scope=\"col\">Reading</th><th scope=\"col\">With tolerances</th>");
    add("<th scope=\"col\">A meter</th><th scope=\"col\">Slip</th></tr></thead>\n<tbody>\n");
    for (SlipRow row : answer.slips()) {
      add("<tr><td class=\"number\"><b>").text(row.reading()).add("</b></td>");
      add("<td class=\"number\">").text(row.range()).add("</td>");
      add("<td class=\"number\">").text(row.meter().words()).add(" it</td>");
      cell(row.faults());
      add("</tr>\n");
    }
    add("</tbody>\n</table>\n</section>\n");
  }

  private void unseen() {
    add("<section>\n<h2>Never shown at the terminals, and what shows it</h2>\n<ul>\n");
    for (NamedProspect never : answer.told(Telling.Kind.NEVER)) {
      for (Prospect.Unseen each : never.prospect().unseen()) {
        add("<li><b>").text(each.fault().sentence()).add(":</b> ");
        text(String.join(" ", each.tests())).add("</li>\n");
      }
    }
    add("</ul>\n</section>\n");
  }

  private void hidden() {
    List<NamedProspect> those = answer.told(Telling.Kind.PERHAPS);
    if (those.isEmpty()) {
      return;
    }
    add("<section>\n<h2>May hide behind tolerances: look while the box is open</h2>\n<ul>\n");
    for (NamedProspect each : those) {
      add("<li><b>").add(each.name()).add(" ").text(each.faults()).add(":</b> ");
      text(each.prospect().faults().get(0).remedy()).add("</li>\n");
    }
    add("</ul>\n</section>\n");
  }

  private void cell(String text) {
    add("<td>").text(text).add("</td>");
  }

  private PredictionPage text(String raw) {
    return add(Html.text(raw));
  }

  private PredictionPage add(String markup) {
    html.append(markup);
    return this;
  }
}
