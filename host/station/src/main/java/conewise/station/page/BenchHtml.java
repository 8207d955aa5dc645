package conewise.station.page;

import static conewise.station.report.Html.text;

import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.diagnosis.Observation;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.chart.Drawing;
import conewise.station.chart.SvgChart;
import conewise.station.report.JobCardPage;
import conewise.station.report.SignDrawing;
import conewise.station.shift.BenchState;
import conewise.station.shift.BenchState.Done;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import conewise.station.shift.Phase;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** A bench's snapshot as HTML, everything said by people escaped. */
final class BenchHtml {
  private static final String CAUTION =
      "Take the box off every amplifier first. Heavy boxes are lifted by two.";

  private BenchHtml() {}

  /** The card: what the bench is doing, or the verdict of the box on it. */
  static String card(BenchState state) {
    String body =
        switch (state.phase()) {
          case JOB -> jobs(state.jobs());
          case NUMBER -> waiting(state, "Scan the box", "Scan or type the number of the next box.");
          case CLIPS ->
              waiting(
                  state,
                  "Clip on",
                  "Put the clips on the box's terminals, red to +. Then the foot switch, Enter, or"
                      + " Measure.");
          case MEASURING, JUDGING -> measuring(state);
          case VERDICT -> verdict(state);
          case NOT_KEPT ->
              waiting(
                  state,
                  "Not kept",
                  "Free some space or mend the folder, then measure this box again.");
        };
    return remark(state.remark()) + body;
  }

  /** The class of the page's ground: the verdict's, or none. */
  static String tone(BenchState state) {
    return state
        .box()
        .flatMap(OnBench::card)
        .map(card -> VerdictSign.of(card.verdict().decision()).machineWord())
        .orElse("");
  }

  private static String remark(Optional<String> remark) {
    return remark
        .map(each -> "<p class=\"remark\" role=\"alert\">" + text(each) + "</p>")
        .orElse("");
  }

  private static String jobs(List<Job> jobs) {
    StringBuilder html = new StringBuilder("<h1 class=\"ask\">Which job?</h1><ul class=\"jobs\">");
    for (Job job : jobs) {
      html.append("<li><button data-do=\"scan\" data-text=\"").append(text(job.code()));
      html.append("\"><b>").append(text(job.code())).append("</b> ").append(text(job.title()));
      html.append("</button></li>");
    }
    return html.append("</ul>").toString();
  }

  private static String waiting(BenchState state, String what, String how) {
    return "<p class=\"kind\">"
        + text(state.job().map(Job::title).orElse(""))
        + "</p><h1>"
        + state.box().map(box -> text(box.serial())).orElse("Next box")
        + "</h1><p class=\"now\">"
        + what
        + "</p><p class=\"how\">"
        + how
        + "</p><p class=\"caution\">"
        + CAUTION
        + "</p>";
  }

  private static String measuring(BenchState state) {
    OnBench box = state.box().orElseThrow();
    long percent = Math.round(100 * box.fraction());
    String bar =
        state.phase() == Phase.MEASURING
            ? "<progress max=\"100\" value=\"" + percent + "\">" + percent + " %</progress>"
            : "<progress></progress>";
    return "<p class=\"kind\">"
        + text(state.job().map(Job::title).orElse(""))
        + "</p><h1>"
        + text(box.serial())
        + "</h1><p class=\"now\">"
        + (state.phase() == Phase.MEASURING ? "Measuring" : "Judging")
        + "</p>"
        + bar
        + "<p class=\"how\">"
        + text(box.doing())
        + "</p>"
        + soFar(box);
  }

  private static String soFar(OnBench box) {
    var points = box.soFar().stream().filter(point -> point.frequencyHz() > 0).toList();
    return points.isEmpty()
        ? ""
        : "<figure>"
            + SvgChart.draw(
                new Drawing(points, 0, List.of(), Optional.empty(), "", Optional.empty()))
            + "</figure>";
  }

  private static String verdict(BenchState state) {
    OnBench box = state.box().orElseThrow();
    JobCard card = box.card().orElseThrow();
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    StringBuilder html = new StringBuilder("<div class=\"beside\"><div class=\"said\">");
    html.append("<p class=\"kind\"><span>").append(text(card.plan().name()));
    html.append("</span><span>attempt ").append(card.attempt().orElse(1)).append("</span></p>");
    html.append("<h1>").append(text(box.serial())).append("</h1><section class=\"verdict\"");
    html.append(" aria-label=\"Verdict\">").append(SignDrawing.of(sign));
    html.append("<p class=\"word\">").append(sign.word()).append("</p></section>");
    html.append("<p class=\"headline\">").append(text(card.verdict().headline())).append("</p>");
    card.verdict()
        .action()
        .ifPresent(
            action ->
                html.append("<p class=\"action\"><strong>Do next</strong> ")
                    .append(text(action))
                    .append("</p>"));
    html.append("</div>").append(JobCardPage.figure(card)).append("</div>");
    html.append(tests(card, box));
    html.append("<p class=\"papers\"><a href=\"/card\" target=\"_blank\">Report to print</a>");
    html.append(" <a href=\"/label\" target=\"_blank\">Label</a></p>");
    return html.append(JobCardPage.details(card)).toString();
  }

  /** What would tell more, and where its answers go. */
  private static String tests(JobCard card, OnBench box) {
    List<Choices.Test> choices = Choices.of(card.plan());
    if (choices.isEmpty() || card.verdict().checks().isEmpty()) {
      return "";
    }
    boolean wanted = !card.verdict().tests().isEmpty();
    StringBuilder html =
        new StringBuilder("<details class=\"tests\"").append(wanted ? " open" : "");
    html.append("><summary>Further tests of this box</summary>");
    List<NextTest> best =
        card.verdict().tests().stream()
            .limit(1)
            .filter(test -> !card.verdict().action().equals(Optional.of(test.instruction())))
            .toList();
    for (NextTest test : best) {
      html.append("<p class=\"best\">").append(text(test.instruction()));
      html.append(String.format(Locale.ROOT, " About %.0f min.</p>", Math.max(1, test.minutes())));
    }
    for (Choices.Test choice : choices) {
      html.append("<fieldset><legend>").append(text(choice.title())).append("</legend>");
      for (Choices.Answer answer : choice.answers()) {
        html.append("<button data-do=\"").append(answer.order()).append('"');
        answer
            .fields()
            .forEach(
                (k, v) ->
                    html.append(" data-").append(k).append("=\"").append(text(v)).append('"'));
        html.append(" aria-pressed=\"").append(isGiven(answer, box)).append("\">");
        html.append(text(answer.words())).append("</button>");
      }
      html.append("</fieldset>");
    }
    return html.append("</details>").toString();
  }

  private static boolean isGiven(Choices.Answer answer, OnBench box) {
    boolean seen =
        box.pops().stream()
            .map(BenchHtml::fields)
            .anyMatch(fields -> fields.equals(answer.fields().toString()));
    return seen
        || box.again().stream().anyMatch(state -> state.equals(answer.state().orElse(null)));
  }

  private static String fields(Observation.Pop pop) {
    return Choices.popFields(pop.driver(), pop.seen()).toString();
  }

  /** The boxes that this shift has finished. */
  static String today(List<Done> today) {
    StringBuilder html = new StringBuilder();
    for (Done done : today) {
      VerdictSign sign = VerdictSign.of(done.decision());
      html.append("<li class=\"").append(sign.machineWord()).append("\">");
      html.append(SignDrawing.of(sign)).append("<b>").append(text(done.serial())).append("</b> ");
      html.append("<span>").append(sign.word()).append("</span> <span>").append(text(done.job()));
      html.append(done.attempt() > 1 ? ", attempt " + done.attempt() : "");
      html.append(", ").append(text(done.time())).append("</span></li>");
    }
    return html.toString();
  }
}
