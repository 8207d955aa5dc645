package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.analysis.judgement.Decision;
import conewise.station.card.VerdictSign;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * The form by which a person decides otherwise than a verdict, and its reading.
 *
 * @param asked what was written; nothing yet at first
 * @param problems what of it has to be mended
 */
record OverruleForm(Asked asked, Problems problems) {
  private static final String NAME = "by";
  private static final String REASON = "reason";
  private static final String DECISION = "to";
  private static final String SERIAL = "serial";
  private static final String SEEN = "overrulings-seen";

  /**
   * What the form says of a run.
   *
   * @param at the moment
   * @return empty where something has to be mended, which stands in the problems then
   */
  Optional<Overruling> read(KeptRun kept, Instant at) {
    require(NAME, Overruling::requireName);
    require(REASON, Overruling::requireReason);
    if (asked.one(DECISION).isEmpty()) {
      problems.add(DECISION, "Say whether the box passes or fails.");
    }
    if (!asked.shown(SEEN).equals(Integer.toString(kept.overrulings().size()))) {
      problems.add(
          "", "Somebody has overruled this run since you opened its page; read that first.");
    }
    if (problems.any()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          Overruling.of(kept, asked.shown(SERIAL), at, words(NAME), decision(), words(REASON)));
    } catch (IllegalArgumentException refused) {
      problems.add("", Problems.sentence(refused));
      return Optional.empty();
    }
  }

  /** Line ends of a reason are blanks. */
  private String words(String field) {
    return asked.shown(field).replaceAll("\\s+", " ");
  }

  private Decision decision() {
    String word = asked.shown(DECISION);
    return word.equals("pass") || word.equals("fail")
        ? Decision.valueOf(word.toUpperCase(Locale.ROOT))
        : Decision.NOT_JUDGED;
  }

  private void require(String field, Consumer<String> check) {
    try {
      check.accept(words(field));
    } catch (IllegalArgumentException bad) {
      problems.add(field, Problems.sentence(bad));
    }
  }

  String write(KeptRun kept) {
    String serial = text(kept.run().serial());
    StringBuilder html =
        new StringBuilder("<section id=\"overrule\">\n<h2>Decide otherwise</h2>\n");
    problems
        .of("")
        .ifPresent(
            each ->
                html.append("<p class=\"wrong alone\" role=\"alert\">")
                    .append(text(each))
                    .append("</p>\n"));
    html.append("<form method=\"post\" class=\"overrule\" action=\"").append(Frame.RUN);
    html.append(kept.id()).append("#overrule\">\n");
    hidden(html, SERIAL, serial);
    hidden(html, SEEN, Integer.toString(kept.overrulings().size()));
    html.append("<fieldset><legend>Box ").append(serial).append("</legend>");
    for (Decision each : List.of(Decision.PASS, Decision.FAIL)) {
      VerdictSign sign = VerdictSign.of(each);
      html.append("<label><input type=\"radio\" name=\"to\" value=\"");
      html.append(sign.machineWord()).append('"');
      html.append(asked.shown(DECISION).equals(sign.machineWord()) ? " checked" : "");
      html.append(" required> ").append(sign.word()).append("</label>");
    }
    problems
        .of(DECISION)
        .ifPresent(each -> html.append("<p class=\"wrong\">").append(text(each)).append("</p>"));
    html.append("</fieldset>\n");
    html.append(
        Field.of(asked, problems, NAME, "Who decides")
            .line(" maxlength=\"" + Overruling.MOST_OF_NAME + "\" required autocomplete=\"name\""));
    html.append(
        Field.of(asked, problems, REASON, "Why")
            .lines(2, " maxlength=\"" + Overruling.MOST_OF_REASON + "\" required"));
    html.append("<button>Overrule the verdict of ").append(serial).append("</button>\n</form>\n");
    html.append(
        "<p class=\"hint\">The verdict stays as it is. What you write stands beside it for");
    return html.append(" ever, with your name; nobody can take it away.</p>\n</section>\n")
        .toString();
  }

  private static void hidden(StringBuilder html, String name, String value) {
    html.append("<input type=\"hidden\" name=\"").append(name).append("\" value=\"");
    html.append(value).append("\">\n");
  }
}
