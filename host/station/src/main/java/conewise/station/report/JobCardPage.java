package conewise.station.report;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.chart.Drawing;
import conewise.station.chart.SvgChart;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

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

  /** So many letters, and the page is full. */
  private static final int MUCH = 3400;

  private static final int VERY_MUCH = 5200;

  /** What stands beside a verdict and has more letters than this is printed smaller. */
  private static final int LONG = 250;

  /** Of a page that is over full, so many entries of a list are printed. */
  private static final int MOST_PRINTED = 3;

  private final JobCard card;
  private final List<String> beside;
  private final StringBuilder html = new StringBuilder(32_768);

  private JobCardPage(JobCard card, List<String> beside) {
    this.card = card;
    this.beside = beside;
  }

  /**
   * Writes the page.
   *
   * @param card what to show
   * @return the whole page, to be kept as UTF-8
   */
  public static String write(JobCard card) {
    return write(card, List.of());
  }

  /**
   * Writes the page with what stands beside its verdict.
   *
   * @param card what to show
   * @param beside sentences, such as who overruled the verdict and why
   */
  public static String write(JobCard card, List<String> beside) {
    return new JobCardPage(card, beside).write();
  }

  /** The curve with what is allowed, as a figure for a page that has job-card.css. */
  public static String figure(JobCard card) {
    JobCardPage part = new JobCardPage(card, List.of());
    part.chart();
    return part.html.toString();
  }

  /** All that stands below the curve: checks, suspects, tests, what is not shown. */
  public static String details(JobCard card) {
    JobCardPage part = new JobCardPage(card, List.of());
    part.below();
    if (card.verdict().decision() != Decision.PASS) {
      part.wiring();
    }
    return part.html.toString();
  }

  private String write() {
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    String serial = card.serial().orElse("no serial number");
    add("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    add(Html.text(serial + ": " + sign.word() + " (" + card.plan().name() + ")"));
    add("</title>\n<style>\n")
        .add(PageStyle.named("job-card.css"))
        .add(PageStyle.named("wiring.css"))
        .add("</style>\n</head>\n");
    add("<body class=\"").add(sign.machineWord()).add(density()).add("\">\n<main>\n");
    head(sign, serial);
    add("<div class=\"pictures\">\n");
    chart();
    wiring();
    add("</div>\n");
    below();
    add("<div class=\"foot\">\n");
    list("Cautions", CAUTIONS.stream().map(Html::text).toList());
    facts();
    return add("</div>\n</main>\n</body>\n</html>\n").html.toString();
  }

  /** What has much to say is printed smaller, so that it stays on one page. */
  private String density() {
    Verdict verdict = card.verdict();
    Stream<String> suspects =
        verdict.suspects().stream()
            .flatMap(
                each ->
                    Stream.concat(each.faults().stream(), Stream.of(each.because(), each.test())));
    Stream<String> tests = verdict.tests().stream().map(JobCardPage::test);
    Stream<String> bench = verdict.bench().stream().map(JobCardPage::finding);
    Stream<String> checks =
        verdict.checks().stream()
            .filter(check -> check.decision() != Decision.PASS)
            .map(check -> check.reason() + check.nextStep().orElse(""));
    int letters =
        Stream.of(suspects, tests, bench, checks, verdict.notShown().stream(), beside.stream())
            .flatMap(each -> each)
            .mapToInt(String::length)
            .sum();
    return letters < MUCH ? "" : letters < VERY_MUCH ? " dense" : " densest";
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

  private void wiring() {
    add("<section class=\"as-planned\">\n<h2>How it should be wired</h2>\n<div class=\"two\">");
    add(WiringFigure.of(card.plan(), card.backdrop().suspectedCoils()));
    add(WiringFigure.leads(card.plan())).add("</div>\n</section>\n");
  }

  private void head(VerdictSign sign, String serial) {
    Verdict verdict = card.verdict();
    add("<header>\n<p class=\"kind\"><span>Conewise job card</span><span>");
    card.attempt().ifPresent(attempt -> add("attempt ").add(Integer.toString(attempt)));
    add("</span></p>\n<h1>").add(Html.text(serial)).add("</h1>\n");
    add("<p class=\"plan\">").add(Html.text(card.plan().name())).add("</p>\n</header>\n");
    add("<section class=\"verdict\" aria-label=\"Verdict\">").add(SignDrawing.of(sign));
    add("<p class=\"word\">").add(sign.word()).add("</p></section>\n");
    add("<section class=\"say\">\n");
    beside.forEach(
        each ->
            add("<p class=\"headline beside")
                .add(each.length() > LONG ? " long" : "")
                .add("\"><b>")
                .add(Html.text(each))
                .add("</b></p>\n"));
    add("<p class=\"headline\">").add(Html.text(verdict.headline()));
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
      add("<figcaption>").add(caption(found.value())).add("</figcaption>\n");
    } else if (drawing instanceof Outcome.NoResult<Drawing> none) {
      add("<p class=\"nocurve\">No curve: ").add(Html.text(none.because())).add("</p>\n");
    }
    add("</figure>\n");
  }

  private static String caption(Drawing drawing) {
    StringBuilder text = new StringBuilder("Top: size of the impedance. Bottom: its phase.");
    drawing
        .backdrop()
        .expected()
        .ifPresent(
            band ->
                text.append(" Grey: at each frequency 95 of 100 boxes built to the plan lie there,")
                    .append(" by its tolerances."));
    if (drawing.backdrop().suspectedCurve().isPresent()) {
      text.append(" Dashed: what the named fault would show, its parts moved within the")
          .append(" tolerances to where they come nearest.");
    }
    text.append(" The shade along a curve is its 95 % interval.");
    if (drawing.floorOhm().isPresent()) {
      text.append(" Dashed and level: the least that the rated impedance allows, 80 % of it.");
    }
    return text.toString();
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
    add("<section class=\"list\">\n<h2>").add(title).add("</h2>\n<ul>\n");
    items.forEach(item -> add("<li>").add(item).add("</li>\n"));
    add("</ul>\n");
    if (items.size() > MOST_PRINTED) {
      add("<p class=\"rest\">The rest stands in the record of this box.</p>\n");
    }
    add("</section>\n");
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
