package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.analysis.judgement.Decision;
import conewise.station.card.VerdictSign;
import conewise.station.desk.Field.Choice;
import conewise.station.records.FilterWords;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import conewise.station.report.SignDrawing;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** The kept runs, newest first, some at a time. */
final class ListPage {
  static final List<String> FILTERS = List.of("job", "serial", "outcome", "since", "until");

  private static final int ROWS = 50;
  private static final int MOST_JOBS = 500;
  private static final String BEFORE = "before";

  private final RecordStore store;
  private final ZoneId zone;

  ListPage(RecordStore store, ZoneId zone) {
    this.store = store;
    this.zone = zone;
  }

  Reply answer(Asked asked) throws RecordsException {
    Problems problems = new Problems();
    RunFilter filter = filter(asked, problems, zone);
    Optional<RunLine.Place> before =
        problems.read(asked, BEFORE, "The place in the list", ListPage::place);
    List<RunLine> lines = List.of();
    if (!problems.any()) {
      RunFilter page = filter.atMost(ROWS + 1);
      lines = before.isPresent() ? store.listBefore(before.get(), page) : store.list(page);
    }
    String html =
        Frame.around(
            "Records",
            Frame.RECORDS,
            "",
            Frame.head("Conewise records", "Records")
                + form(asked, problems)
                + (problems.any() ? "" : table(asked, lines, before.isPresent())));
    return problems.any() ? Reply.toMend(html) : Reply.found(html);
  }

  /** Reads the filter's fields; what cannot be read does not narrow and is a problem. */
  static RunFilter filter(Asked asked, Problems problems, ZoneId zone) {
    Optional<Instant> since =
        problems.read(asked, "since", "From", text -> FilterWords.from(text, zone));
    Optional<Instant> until =
        problems.read(asked, "until", "To", text -> FilterWords.upTo(text, zone));
    Optional<Decision> outcome =
        problems.read(asked, "outcome", "The verdict", FilterWords::decision);
    try {
      return new RunFilter(
          since, until, asked.one("job"), asked.one("serial"), outcome, RunFilter.MOST);
    } catch (IllegalArgumentException backwards) {
      problems.add("until", "The last day is before the first; nothing lies between them.");
      return RunFilter.ALL;
    }
  }

  private String form(Asked asked, Problems problems) throws RecordsException {
    return "<form class=\"filters\" action=\""
        + Frame.RECORDS
        + "\">\n"
        + Field.of(asked, problems, "serial", "Serial number").line(" maxlength=\"200\"")
        + job(asked, problems, store.jobs())
        + Field.of(asked, problems, "outcome", "Verdict").choice(outcomes())
        + days(asked, problems)
        + "<button>Show</button>\n</form>\n"
        + problems
            .of(BEFORE)
            .map(sentence -> "<p class=\"wrong alone\">" + text(sentence) + "</p>\n")
            .orElse("");
  }

  static String job(Asked asked, Problems problems, List<String> jobs) {
    StringBuilder html = new StringBuilder();
    html.append(Field.of(asked, problems, "job", "Job").line(" maxlength=\"200\" list=\"jobs\""));
    html.append("<datalist id=\"jobs\">");
    jobs.stream()
        .limit(MOST_JOBS)
        .forEach(each -> html.append("<option value=\"").append(text(each)).append("\">"));
    return html.append("</datalist>\n").toString();
  }

  static String days(Asked asked, Problems problems) {
    return Field.of(asked, problems, "since", "From").line(" type=\"date\"")
        + Field.of(asked, problems, "until", "To").line(" type=\"date\"");
  }

  private static List<Choice> outcomes() {
    List<Choice> outcomes = new ArrayList<>(List.of(new Choice("", "any")));
    Arrays.stream(VerdictSign.values())
        .forEach(sign -> outcomes.add(new Choice(sign.machineWord(), sign.word())));
    return outcomes;
  }

  private String table(Asked asked, List<RunLine> lines, boolean later) {
    if (lines.isEmpty()) {
      return "<p class=\"none\">No run is like that.</p>\n" + ways(asked, Optional.empty(), later);
    }
    List<RunLine> shown = lines.subList(0, Math.min(ROWS, lines.size()));
    StringBuilder html = new StringBuilder("<form action=\"" + Frame.COMPARE + "\">\n<table>\n");
    html.append("<caption>Runs, newest first</caption>\n<thead><tr>");
    for (String head :
        List.of("Mark", "Serial", "Verdict", "Attempt", "Job", "Ended", "What was said")) {
      html.append("<th scope=\"col\">").append(head).append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
    shown.forEach(line -> html.append(row(line)));
    html.append("</tbody>\n</table>\n");
    html.append("<p class=\"ways\"><button>Compare the two marked curves</button></p>\n</form>\n");
    Optional<RunLine> last =
        lines.size() > ROWS ? Optional.of(shown.get(ROWS - 1)) : Optional.empty();
    return html.append(ways(asked, last, later)).toString();
  }

  private String row(RunLine line) {
    VerdictSign sign = VerdictSign.of(line.decision());
    StringBuilder html =
        new StringBuilder("<tr><td><input type=\"checkbox\" name=\"run\" value=\"");
    html.append(line.id()).append("\" aria-label=\"Mark run ").append(line.id()).append(" of ");
    html.append(text(line.serial())).append("\"></td><th scope=\"row\"><a href=\"");
    html.append(Frame.RUN).append(line.id()).append("\">").append(text(line.serial()));
    html.append("</a></th><td class=\"decision ").append(sign.machineWord()).append("\">");
    html.append(SignDrawing.of(sign)).append(sign.word()).append(since(line)).append("</td><td>");
    html.append(line.attempt()).append("</td><td class=\"wide\">").append(text(line.job()));
    html.append("</td><td>").append(Days.minute(line.finished(), zone));
    html.append("</td><td class=\"wide\">").append(text(line.fault().orElse(line.headline())));
    return html.append("</td></tr>\n").toString();
  }

  /** What came to a verdict since. */
  private static String since(RunLine line) {
    return line.later()
            .filter(later -> later != line.decision())
            .map(later -> "<span class=\"reason\">later " + word(later) + "</span>")
            .orElse("")
        + line.overruled()
            .map(
                other ->
                    "<span class=\"reason\">to "
                        + word(other.decision())
                        + ": "
                        + text(other.words())
                        + "</span>")
            .orElse("");
  }

  private static String word(Decision decision) {
    return VerdictSign.of(decision).word();
  }

  private static String ways(Asked asked, Optional<RunLine> last, boolean later) {
    String same = asked.address(Frame.RECORDS, FILTERS);
    StringBuilder html = new StringBuilder("<p class=\"ways\">");
    last.ifPresent(
        line -> {
          html.append("<a rel=\"next\" href=\"").append(text(same));
          html.append(same.contains("?") ? "&amp;" : "?").append(BEFORE).append('=');
          html.append(line.finished().toEpochMilli()).append('-').append(line.id());
          html.append("\">Older ones</a> ");
        });
    if (later) {
      html.append("<a href=\"").append(text(same)).append("\">The newest</a>");
    }
    return html.append("</p>\n").toString();
  }

  private static RunLine.Place place(String words) {
    String[] parts = words.split("-", -1);
    try {
      if (parts.length == 2) {
        return new RunLine.Place(
            Instant.ofEpochMilli(Long.parseLong(parts[0])), Long.parseLong(parts[1]));
      }
    } catch (NumberFormatException bad) {
      throw new IllegalArgumentException(noPlace(words), bad);
    }
    throw new IllegalArgumentException(noPlace(words));
  }

  private static String noPlace(String words) {
    return "is \"" + words + "\", which this page never wrote; begin with the newest.";
  }
}
