package conewise.station.report;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.chart.Drawing;
import conewise.station.chart.SvgChart;
import java.util.List;
import java.util.stream.Collectors;

/**
 * The job card as one HTML page: no script, nothing fetched, all text escaped, one printed page.
 * The same card always gives the same bytes.
 */
public final class JobCardPage {
  private static final List<String> CAUTIONS =
      List.of(
          "Take the box off every amplifier before it meets the jig or a battery: a bridged output"
              + " has no ground side, and a live one can hurt you and the jig.",
          "A pop test needs 1.5 V for less than a second; more can damage a driver. Keep ears away"
              + " from the cone.",
          "Heavy boxes are lifted by two. Local codes and licensed practice come before this"
              + " card.");

  private final JobCard card;
  private final StringBuilder html = new StringBuilder(32_768);

  private JobCardPage(JobCard card) {
    this.card = card;
  }

  /**
   * Writes the page.
   *
   * @param card what to show
   * @return the whole page, to be kept as UTF-8
   */
  public static String write(JobCard card) {
    return new JobCardPage(card).write();
  }

  /** The curve with what is allowed, as a figure for a page that has job-card.css. */
  public static String figure(JobCard card) {
    JobCardPage part = new JobCardPage(card);
    part.chart();
    return part.html.toString();
  }

  /** All that stands below the curve: checks, suspects, tests, what is not shown. */
  public static String details(JobCard card) {
    JobCardPage part = new JobCardPage(card);
    part.below();
    return part.html.toString();
  }

  private String write() {
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    String serial = card.serial().orElse("no serial number");
    add("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    add(Html.text(serial + ": " + sign.word() + " (" + card.plan().name() + ")"));
    add("</title>\n<style>\n").add(PageStyle.named("job-card.css")).add("</style>\n</head>\n");
    add("<body class=\"").add(sign.machineWord()).add("\">\n<main>\n");
    head(sign, serial);
    chart();
    below();
    add("<div class=\"foot\">\n");
    list("Cautions", CAUTIONS.stream().map(Html::text).toList());
    facts();
    return add("</div>\n</main>\n</body>\n</html>\n").html.toString();
  }

  private void below() {
    checks();
    suspects();
    list(
        "Tests that would tell more",
        card.verdict().tests().stream().map(JobCardPage::test).toList());
    list("The bench", card.verdict().bench().stream().map(JobCardPage::finding).toList());
    list(
        "What this sweep cannot show", card.verdict().notShown().stream().map(Html::text).toList());
  }

  private void head(VerdictSign sign, String serial) {
    Verdict verdict = card.verdict();
    add("<header>\n<p class=\"kind\"><span>Conewise job card</span><span>");
    card.attempt().ifPresent(attempt -> add("attempt ").add(Integer.toString(attempt)));
    add("</span></p>\n<h1>").add(Html.text(serial)).add("</h1>\n");
    add("<p class=\"plan\">").add(Html.text(card.plan().name())).add("</p>\n</header>\n");
    add("<section class=\"verdict\" aria-label=\"Verdict\">").add(SignDrawing.of(sign));
    add("<p class=\"word\">").add(sign.word()).add("</p></section>\n");
    add("<section class=\"say\">\n<p class=\"headline\">").add(Html.text(verdict.headline()));
    add("</p>\n");
    verdict
        .action()
        .ifPresent(
            action ->
                add("<p class=\"action\"><strong>Do next</strong> ")
                    .add(Html.text(action))
                    .add("</p>\n"));
    add("</section>\n");
  }

  private void chart() {
    Outcome<Drawing> drawing = Drawing.of(card);
    add("<figure>\n");
    if (drawing instanceof Outcome.Found<Drawing> found) {
      add(SvgChart.draw(found.value()));
      add("<figcaption>Top: modulus of the impedance. Bottom: its phase. The shade along a curve");
      add(" is its 95 % interval.");
      if (found.value().floorOhm().isPresent()) {
        add(" Dashed: the least modulus allowed, 80 % of the rated impedance.");
      }
      add("</figcaption>\n");
    } else if (drawing instanceof Outcome.NoResult<Drawing> none) {
      add("<p class=\"nocurve\">No curve: ").add(Html.text(none.because())).add("</p>\n");
    }
    add("</figure>\n");
  }

  private void checks() {
    if (card.verdict().checks().isEmpty()) {
      return;
    }
    add("<section>\n<table>\n<caption>Checks</caption>\n<thead><tr>");
    for (String head : List.of("Check", "Value", "95 % interval", "Limits", "Decision")) {
      add("<th scope=\"col\">").add(head).add("</th>");
    }
    add("</tr></thead>\n<tbody>\n");
    card.verdict().checks().forEach(this::check);
    add("</tbody>\n</table>\n</section>\n");
  }

  private void check(Check check) {
    VerdictSign sign = VerdictSign.of(check.decision());
    add("<tr class=\"of-").add(sign.machineWord()).add("\"><th scope=\"row\">");
    add(Html.text(check.title()));
    add("<span class=\"reason\">").add(Html.text(check.reason()));
    check.nextStep().ifPresent(step -> add(" ").add(Html.text(step)));
    add("</span></th>");
    if (check.reading() instanceof Outcome.Found<Check.Reading> found) {
      cell(Figures.value(found.value()));
      cell(Figures.interval(found.value()));
    } else {
      cell("none");
      cell("none");
    }
    cell(check.limits().map(Figures::limits).orElse("none set"));
    add("<td class=\"decision ").add(sign.machineWord()).add("\">");
    add(SignDrawing.of(sign)).add(sign.word()).add("</td></tr>\n");
  }

  private void cell(String text) {
    add("<td>").add(Html.text(text)).add("</td>");
  }

  private void suspects() {
    list(
        "What may be wrong, likeliest first",
        card.verdict().suspects().stream().map(JobCardPage::suspect).toList());
  }

  private static String suspect(Verdict.Suspect suspect) {
    String faults =
        suspect.faults().stream().map(Html::text).collect(Collectors.joining("</b> or <b>"));
    return "<b>"
        + faults
        + "</b>: "
        + Html.text(suspect.because())
        + " <i>To settle it:</i> "
        + Html.text(suspect.test());
  }

  private static String test(NextTest test) {
    return "<b>"
        + Html.text(test.instruction())
        + "</b>"
        + test.results().stream()
            .map(each -> " <i>If " + Html.text(each.seen()) + ":</i> " + Html.text(each.meaning()))
            .collect(Collectors.joining(".", "", "."));
  }

  private static String finding(BenchFinding finding) {
    return (finding.spoils() ? "<b>Spoils the measurement.</b> " : "")
        + Html.text(finding.sentence())
        + " "
        + Html.text(finding.nextStep());
  }

  private void list(String title, List<String> items) {
    if (items.isEmpty()) {
      return;
    }
    add("<section>\n<h2>").add(title).add("</h2>\n<ul>\n");
    items.forEach(item -> add("<li>").add(item).add("</li>\n"));
    add("</ul>\n</section>\n");
  }

  private void facts() {
    if (card.facts().isEmpty()) {
      return;
    }
    add("<section>\n<h2>How it was measured</h2>\n<dl>\n");
    for (JobCard.Fact fact : card.facts()) {
      add("<div><dt>").add(Html.text(fact.label())).add("</dt><dd>");
      add(Html.text(fact.text())).add("</dd></div>\n");
    }
    add("</dl>\n</section>\n");
  }

  private JobCardPage add(String text) {
    html.append(text);
    return this;
  }
}
