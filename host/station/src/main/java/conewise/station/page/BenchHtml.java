package conewise.station.page;

import static conewise.station.report.Html.text;

import conewise.analysis.prediction.ExpectedBand;
import conewise.jig.sweep.CurveSoFar;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.chart.Drawing;
import conewise.station.chart.SvgChart;
import conewise.station.report.OverrulingHtml;
import conewise.station.report.SignDrawing;
import conewise.station.shift.BenchState;
import conewise.station.shift.BenchState.Done;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import conewise.station.shift.Phase;
import conewise.station.shift.Slept;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** A bench's snapshot as HTML, everything said by people escaped. */
final class BenchHtml {
  private static final String CAUTION =
      "Take the box off every amplifier first. Heavy boxes are lifted by two.";

  private static final String NO_JIG =
      "Plug the jig in. It is looked for every two seconds, and work goes on by itself when it"
          + " answers.";

  private BenchHtml() {}

  /** The card: what the bench is doing, or the verdict of the box on it. */
  static String card(BenchState state) {
    String slept =
        state.phase() == Phase.JOB
            ? state.slept().map(each -> Trouble.SLEPT.html(slept(state, each))).orElse("")
            : "";
    String body =
        switch (state.phase()) {
          case JOB -> jobs(state.jobs());
          case NUMBER -> waiting(state, "Scan the box", "Scan or type the number of the next box.");
          case CLIPS ->
              waiting(
                  state,
                  "Clip on",
                  "Put the clips on the box's terminals, red to +. Then press the foot switch,"
                      + " Enter or Measure.");
          case MEASURING, JUDGING -> measuring(state);
          case VERDICT -> VerdictHtml.of(state.box().orElseThrow(), state.slept().isPresent());
          case NOT_KEPT ->
              waiting(
                  state,
                  "Not kept",
                  "Make room on the disk or mend the folder, then measure this box again.");
        };
    return remark(state.remark()) + slept + body;
  }

  /** The same in a few words, for those who listen to the page. */
  static String said(BenchState state) {
    String box = state.box().map(each -> "Box " + each.serial() + ". ").orElse("");
    String what =
        switch (state.phase()) {
          case JOB -> "Which job?";
          case NUMBER -> "Scan the box.";
          case CLIPS -> "Clip on.";
          case MEASURING -> "Measuring.";
          case JUDGING -> "Judging.";
          case VERDICT ->
              state.box().flatMap(each -> each.card().map(card -> said(each, card))).orElse("");
          case NOT_KEPT -> "Not kept.";
        };
    String slept = state.slept().map(each -> each.sentence() + " ").orElse("");
    return slept + box + what + (state.jig().answers() ? "" : " No jig. " + state.jig().words());
  }

  private static String said(OnBench box, JobCard card) {
    return VerdictSign.of(card.verdict().decision()).word()
        + ". "
        + Trouble.toBlameFor(card.verdict()).map(trouble -> trouble.said() + " ").orElse("")
        + box.overruled().stream()
            .map(each -> OverrulingHtml.words(each) + " ")
            .collect(Collectors.joining())
        + card.verdict().headline()
        + " "
        + VerdictHtml.action(box, card).orElse("");
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
        + "</p>"
        + SerialHeading.of(state.box().map(OnBench::serial).orElse("Next box"))
        + sign(state, what, how)
        + "<p class=\"caution\">"
        + CAUTION
        + "</p>";
  }

  /** What to do, or the bench's trouble in its place. */
  private static String sign(BenchState state, String what, String how) {
    if (state.phase() == Phase.NOT_KEPT) {
      return Trouble.NOT_KEPT.html(how);
    }
    if (state.slept().isPresent()) {
      return Trouble.SLEPT.html(slept(state, state.slept().get()));
    }
    return state.jig().answers()
        ? "<p class=\"now\">" + what + "</p><p class=\"how\">" + how + "</p>"
        : Trouble.NO_JIG.html(NO_JIG);
  }

  /** That the computer slept, what holds of the jig since, and how to go on. */
  private static String slept(BenchState state, Slept slept) {
    return slept.sentence()
        + (state.jig().answers()
            ? " The jig was met afresh."
            : " The jig is looked for every two seconds.")
        + switch (state.phase()) {
          case JOB -> "";
          case NUMBER -> " Scan the next box.";
          case CLIPS, MEASURING, JUDGING, VERDICT, NOT_KEPT ->
              " Look at the clips, then measure this box anew: foot switch, Enter or Measure.";
        };
  }

  private static String measuring(BenchState state) {
    OnBench box = state.box().orElseThrow();
    long percent = Math.round(100 * box.fraction());
    String bar =
        state.phase() == Phase.MEASURING
            ? "<progress max=\"100\" value=\"" + percent + "\">" + percent + " %</progress>"
            : "<progress></progress>";
    return "<div class=\"beside\"><div class=\"said\"><p class=\"kind\">"
        + text(state.job().map(Job::title).orElse(""))
        + "</p>"
        + SerialHeading.of(box.serial())
        + "<p class=\"now\">"
        + (state.phase() == Phase.MEASURING ? "Measuring" : "Judging")
        + "</p>"
        + bar
        + "<p class=\"how\">"
        + text(box.doing())
        + "</p></div>"
        + soFar(state, box)
        + "</div>";
  }

  /** What has come so far, before where it is expected; the axes stand from the start. */
  private static String soFar(BenchState state, OnBench box) {
    boolean willCome = state.phase() == Phase.MEASURING;
    if (!willCome && box.soFar().points().isEmpty()) {
      return "";
    }
    return state.expected().map(band -> figure(box.soFar(), band)).orElse("");
  }

  private static String figure(CurveSoFar soFar, ExpectedBand band) {
    Drawing.Line line =
        switch (soFar.standing()) {
          case ESTIMATED -> Drawing.Line.ESTIMATED;
          case NOTHING, GROWING -> Drawing.Line.GROWING;
          case MEASURED -> Drawing.Line.MEASURED;
        };
    String words =
        switch (soFar.standing()) {
          case NOTHING -> "No curve yet.";
          case ESTIMATED -> "Dotted: so far. It may still move.";
          case GROWING -> "Solid: measured so far.";
          case MEASURED -> "Solid: measured.";
        };
    Drawing drawing = Drawing.growing(line, soFar.points(), soFar.scaleUncertainty(), band);
    return "<figure>"
        + SvgChart.draw(drawing)
        + "<figcaption class=\"how\">"
        + words
        + "</figcaption></figure>";
  }

  /** The boxes that this shift has finished. */
  static String today(List<Done> today) {
    StringBuilder html = new StringBuilder();
    for (Done done : today) {
      VerdictSign sign = VerdictSign.of(done.decision());
      html.append("<li class=\"").append(sign.machineWord()).append("\">");
      html.append(SignDrawing.of(sign)).append("<b>").append(text(done.serial())).append("</b> ");
      html.append("<span>").append(sign.word()).append(done.overruled() ? ", overruled" : "");
      html.append("</span> <span>").append(text(done.job()));
      html.append(done.attempt() > 1 ? ", attempt " + done.attempt() : "");
      html.append(", ").append(text(done.time())).append("</span></li>");
    }
    return html.toString();
  }
}
