package conewise.station.page;

import static conewise.station.report.Html.text;

import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.judgement.Decision;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.records.Overruling;
import conewise.station.report.JobCardPage;
import conewise.station.report.OverrulingHtml;
import conewise.station.report.SignDrawing;
import conewise.station.shift.BenchState.OnBench;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** A box with its verdict on the bench's card. */
final class VerdictHtml {
  /** What to do next where nothing is wrong. */
  private static final String AFTER_PASS = "Put its label on, then scan the next box.";

  private static final String AFTER_OVERRULED_FAIL =
      "Set the box aside with its report: a person decided that it fails.";

  private VerdictHtml() {}

  /**
   * The verdict of a box that has one.
   *
   * @param slept whether the computer slept through its sweep
   */
  static String of(OnBench box, boolean slept) {
    JobCard card = box.card().orElseThrow();
    Optional<Trouble> trouble =
        slept ? Optional.of(Trouble.SLEPT) : Trouble.toBlameFor(card.verdict());
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    StringBuilder html = new StringBuilder("<div class=\"beside\"><div class=\"said\">");
    html.append("<p class=\"kind\"><span>").append(text(card.plan().name()));
    html.append("</span><span>attempt ").append(card.attempt().orElse(1)).append("</span></p>");
    html.append(SerialHeading.of(box.serial())).append("<section class=\"verdict\"");
    html.append(" aria-label=\"Verdict\">").append(SignDrawing.of(sign));
    html.append("<p class=\"word\">").append(sign.word()).append("</p></section>");
    trouble.ifPresent(each -> html.append(each.sign()));
    box.overruled().forEach(each -> html.append(OverrulingHtml.of(each, "")));
    html.append("<p class=\"headline\">").append(text(card.verdict().headline())).append("</p>");
    Optional<String> action = action(box, card);
    action.ifPresent(
        next ->
            html.append("<p class=\"action\"><strong>Do next</strong> ")
                .append(text(next))
                .append("</p>"));
    html.append("</div>").append(JobCardPage.figure(card)).append("</div>");
    html.append(tests(card, box));
    html.append("<p class=\"papers\"><a href=\"/card\" target=\"_blank\">Report</a>");
    html.append(" <a href=\"/label\" target=\"_blank\">Label</a></p>");
    return html.append(JobCardPage.details(card)).toString();
  }

  /** What to do next: as was judged, or as a person decided otherwise last. */
  static Optional<String> action(OnBench box, JobCard card) {
    Decision last =
        box.overruled().stream()
            .reduce((earlier, later) -> later)
            .map(Overruling::decision)
            .orElse(card.verdict().decision());
    if (last == Decision.PASS) {
      return Optional.of(AFTER_PASS);
    }
    return box.overruled().isEmpty() ? card.verdict().action() : Optional.of(AFTER_OVERRULED_FAIL);
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
            .map(VerdictHtml::fields)
            .anyMatch(fields -> fields.equals(answer.fields().toString()));
    return seen
        || box.again().stream().anyMatch(state -> state.equals(answer.state().orElse(null)));
  }

  private static String fields(Observation.Pop pop) {
    return Choices.popFields(pop.driver(), pop.seen()).toString();
  }
}
