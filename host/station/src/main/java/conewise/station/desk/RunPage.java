package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.files.BadFileException;
import conewise.station.judging.Backdrops;
import conewise.station.judging.KeptJudging;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.Judgement;
import conewise.station.records.KeptRun;
import conewise.station.records.RunLine;
import conewise.station.report.JobCardPage;
import conewise.station.report.OverrulingHtml;
import conewise.station.report.SignDrawing;
import java.time.ZoneId;
import java.util.List;

/** One kept run: the card that the bench showed, what came to it since, all attempts of its box. */
final class RunPage {
  private final KeptRun kept;
  private final Backdrops backdrops;
  private final List<RunLine> attempts;
  private final ZoneId zone;
  private final StringBuilder html = new StringBuilder(65_536);

  /**
   * The page of a run.
   *
   * @param backdrops what its curve is held against
   * @param attempts all runs of its box in its job, newest first
   * @param zone of the shop
   */
  RunPage(KeptRun kept, Backdrops backdrops, List<RunLine> attempts, ZoneId zone) {
    this.kept = kept;
    this.backdrops = backdrops;
    this.attempts = attempts;
    this.zone = zone;
  }

  /** Writes it, with a form to overrule its verdict. */
  String write(OverruleForm form) {
    VerdictSign sign = VerdictSign.of(kept.run().verdict().decision());
    head(sign);
    card();
    judgedAgain();
    seen();
    attempts();
    kept();
    add(form.write(kept));
    return Frame.around(
        kept.run().serial() + ": " + sign.word(),
        Frame.RECORDS,
        sign.machineWord(),
        html.toString());
  }

  private void head(VerdictSign sign) {
    BoxRun run = kept.run();
    add("<header>\n<p class=\"kind\"><span>Conewise records, run " + kept.id());
    add("</span><span>attempt " + kept.attempt() + "</span></p>\n<h1>" + text(run.serial()));
    add("</h1>\n<p class=\"plan\">Job " + text(run.job()) + ", ");
    add(Days.minute(run.finished(), zone) + "</p>\n</header>\n");
    add("<section class=\"verdict\" aria-label=\"Verdict\">" + SignDrawing.of(sign));
    add("<p class=\"word\">" + sign.word() + "</p></section>\n");
    kept.overrulings().forEach(each -> add(OverrulingHtml.of(each, Days.minute(each.at(), zone))));
    add("<section class=\"say\">\n<p class=\"headline\">" + text(run.verdict().headline()));
    add("</p>\n");
    run.verdict()
        .action()
        .ifPresent(
            action ->
                add("<p class=\"action\"><strong>Do next</strong> " + text(action) + "</p>\n"));
    add("</section>\n");
  }

  private void card() {
    try {
      JobCard card = backdrops.behind(KeptJudging.card(kept));
      add(JobCardPage.figure(card) + JobCardPage.details(card));
      add("<p class=\"ways\"><a href=\"" + Frame.RUN + kept.id() + "/card\">Job card to print");
      add("</a></p>\n");
    } catch (BadFileException bad) {
      add("<p class=\"wrong alone\">" + text(bad.getMessage()) + "</p>\n");
    }
  }

  private void judgedAgain() {
    List<Judgement> later = kept.judgements().stream().skip(1).toList();
    if (later.isEmpty()) {
      return;
    }
    table("Judged again since", "When", "Verdict", "Limits version", "What was said");
    for (Judgement each : later) {
      add("<tr><td>" + Days.minute(each.at(), zone) + "</td>");
      add(sign(VerdictSign.of(each.verdict().decision())) + "<td>" + each.limitsVersion());
      add("</td><td class=\"wide\">" + text(each.verdict().headline()) + "</td></tr>\n");
    }
    add("</tbody>\n</table>\n</section>\n");
  }

  private static String sign(VerdictSign sign) {
    return "<td class=\"decision "
        + sign.machineWord()
        + "\">"
        + SignDrawing.of(sign)
        + sign.word()
        + "</td>";
  }

  private void seen() {
    if (kept.run().sightings().isEmpty()) {
      return;
    }
    add("<section>\n<h2>What people saw</h2>\n<ul>\n");
    kept.run()
        .sightings()
        .forEach(
            each ->
                add(
                    "<li>"
                        + text(each.words())
                        + each.by().map(name -> " (" + text(name) + ")").orElse("")
                        + "</li>\n"));
    add("</ul>\n</section>\n");
  }

  private void attempts() {
    table("All attempts of this box in this job", "Attempt", "Verdict", "Ended", "Curves");
    for (RunLine line : attempts) {
      boolean here = line.id() == kept.id();
      add("<tr><th scope=\"row\">");
      add(
          here
              ? line.attempt() + ", this one"
              : "<a href=\"" + Frame.RUN + line.id() + "\">" + line.attempt() + "</a>");
      add("</th>" + sign(VerdictSign.of(line.decision())));
      add("<td>" + Days.minute(line.finished(), zone) + "</td><td>");
      add(here ? "" : compare(line));
      add("</td></tr>\n");
    }
    add("</tbody>\n</table>\n");
    add("<form class=\"filters\" action=\"" + Frame.COMPARE + "\">");
    add("<input type=\"hidden\" name=\"run\" value=\"" + kept.id() + "\">");
    add("<div class=\"field\"><label for=\"other\">Compare its curve with that of run</label>");
    add("<input id=\"other\" name=\"run\" inputmode=\"numeric\" maxlength=\"19\" required></div>");
    add("<button>Compare</button></form>\n</section>\n");
  }

  private String compare(RunLine line) {
    return "<a href=\""
        + Frame.COMPARE
        + "?run="
        + kept.id()
        + "&amp;run="
        + line.id()
        + "\">Compare with attempt "
        + line.attempt()
        + "</a>";
  }

  private void kept() {
    BoxRun run = kept.run();
    add("<section>\n<h2>How it was kept</h2>\n<dl>\n");
    fact("Run", Long.toString(kept.id()));
    fact("Limits", "version " + kept.limitsVersion() + " of the job");
    fact("Plan", "SHA-256 " + run.plan().hash().substring(0, 16));
    run.operator().ifPresent(name -> fact("Operator", name));
    fact("Bench", run.station());
    JigUsed jig = run.jig();
    fact("Jig", jig.serial().orElse("no number") + ", " + jig.board() + ", " + jig.firmware());
    jig.calibration().ifPresent(words -> fact("Calibration", words));
    jig.temperatureC().ifPresent(degrees -> fact("Air", degrees + " C"));
    fact("Program", run.software());
    add("</dl>\n</section>\n");
  }

  private void fact(String label, String words) {
    add("<div><dt>" + label + "</dt><dd>" + text(words) + "</dd></div>\n");
  }

  private void table(String title, String... heads) {
    add("<section>\n<table>\n<caption>" + title + "</caption>\n<thead><tr>");
    for (String head : heads) {
      add("<th scope=\"col\">" + head + "</th>");
    }
    add("</tr></thead>\n<tbody>\n");
  }

  private void add(String part) {
    html.append(part);
  }
}
