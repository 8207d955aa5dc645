package conewise.station.report;

import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.chart.TrendChart;
import conewise.station.records.RunLine;
import conewise.station.records.trend.ControlChart;
import conewise.station.records.trend.FaultCount;
import conewise.station.records.trend.Untested;
import conewise.station.records.trend.WeeklyYield;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * What the records say, on one page for the owner: yield by week, faults, trends, boxes that came
 * more than once. No script, nothing fetched, all text escaped; the same content always gives the
 * same bytes.
 */
public final class RecordsPage {

  /**
   * What stands on it.
   *
   * @param title what it is about, such as a job and a span of time
   * @param weeks yield by week, in order
   * @param faults the most frequent first
   * @param trends by the figure's name: its chart, or why there is none
   * @param attempts the last run of each box that came more than once, most attempts first
   * @param overruled runs whose verdict a person overruled, newest first
   * @param untested which of some serials never had a run, where that was asked
   */
  public record Content(
      String title,
      List<WeeklyYield> weeks,
      List<FaultCount> faults,
      Map<String, Outcome<ControlChart>> trends,
      List<RunLine> attempts,
      List<RunLine> overruled,
      Optional<Untested> untested) {
    public Content {
      weeks = List.copyOf(weeks);
      faults = List.copyOf(faults);
      trends = new LinkedHashMap<>(trends);
      attempts = List.copyOf(attempts);
      overruled = List.copyOf(overruled);
    }

    Content with(Untested serials) {
      return new Content(title, weeks, faults, trends, attempts, overruled, Optional.of(serials));
    }
  }

  private static final int NEWEST_WEEKS = 13;
  private static final int MOST_ROWS = 30;
  private static final int MOST_SERIALS = 500;
  private static final double BAR_REM = 18;

  private final Content content;
  private final boolean served;
  private final StringBuilder html = new StringBuilder(65_536);

  private RecordsPage(Content content, boolean served) {
    this.content = content;
    this.served = served;
  }

  /** Writes the page, which stands alone. */
  public static String write(Content content) {
    return new RecordsPage(content, false).write();
  }

  /** What stands below its head, for a page that the station serves: runs lead to their pages. */
  public static String sections(Content content) {
    RecordsPage page = new RecordsPage(content, true);
    page.sections();
    return page.html.toString();
  }

  private String write() {
    add("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    add(Html.text(content.title())).add("</title>\n<style>\n");
    add(PageStyle.named("job-card.css")).add(PageStyle.named("records.css"));
    add("</style>\n</head>\n<body class=\"records\">\n<main>\n<header>\n");
    add("<p class=\"kind\"><span>Conewise records</span></p>\n<h1>");
    add(Html.text(content.title())).add("</h1>\n</header>\n");
    sections();
    return add("</main>\n</body>\n</html>\n").html.toString();
  }

  private void sections() {
    weeks();
    faults();
    content.trends().forEach(this::trend);
    runs("Boxes that came more than once", content.attempts());
    runs("Verdicts that a person overruled", content.overruled());
    content.untested().ifPresent(this::untested);
  }

  private void untested(Untested untested) {
    add("<section>\n<h2>Serials that never had a run</h2>\n<p>");
    add(Integer.toString(untested.missing().size())).add(" of ");
    add(Integer.toString(untested.asked())).add(" serials that were named");
    add(untested.missing().isEmpty() ? "." : ":").add("</p>\n<p class=\"serials\">");
    add(Html.text(String.join(", ", untested.missing().stream().limit(MOST_SERIALS).toList())));
    int left = untested.missing().size() - MOST_SERIALS;
    add(left > 0 ? ", and " + left + " more" : "").add("</p>\n</section>\n");
  }

  /** The newest first; those of long ago are there when they are asked for. */
  private void weeks() {
    List<WeeklyYield> newest = new ArrayList<>(content.weeks());
    Collections.reverse(newest);
    int shown = Math.min(NEWEST_WEEKS, newest.size());
    weeks("Yield by week", newest.subList(0, shown));
    end(newest.isEmpty());
    note(
        "A box counts in the week of the first run that judged it. A run that was not judged is the"
            + " bench's, not the box's.");
    if (shown < newest.size()) {
      add("<details>\n<summary>Earlier weeks: ").add(Integer.toString(newest.size() - shown));
      add("</summary>\n");
      weeks("Earlier weeks", newest.subList(shown, newest.size()));
      end(false);
      add("</details>\n");
    }
  }

  private void weeks(String title, List<WeeklyYield> weeks) {
    table(title, "Week", "Boxes", "Passed at once", "Passed in the end", "Retests", "Not judged");
    weeks.forEach(this::week);
  }

  private void week(WeeklyYield week) {
    add("<tr><th scope=\"row\">").add(week.week().toString()).add("</th>");
    cell(Integer.toString(week.boxes()));
    if (week.boxes() > 0) {
      bar(week.firstPassShare(), week.firstPass(), "bar");
      bar(week.finalPassShare(), week.finalPass(), "bar last");
    } else {
      cell("none judged").cell("none judged");
    }
    cell(Integer.toString(week.retests())).cell(Integer.toString(week.notJudged()));
    add("</tr>\n");
  }

  private void bar(double share, int count, String style) {
    add("<td><span class=\"").add(style).add("\" style=\"width:");
    add(String.format(Locale.ROOT, "%.2f", share * BAR_REM / 3)).add("rem\"></span> ");
    add(String.format(Locale.ROOT, "%.0f %% (%d)", 100 * share, count)).add("</td>");
  }

  private void faults() {
    table("Faults, most frequent first", "Fault", "Boxes", "Share", "With those above");
    for (FaultCount fault : content.faults().stream().limit(MOST_ROWS).toList()) {
      add("<tr><th scope=\"row\" class=\"fault\">").add(Html.text(fault.fault())).add("</th>");
      add("<td><span class=\"bar\" style=\"width:");
      double longest = content.faults().get(0).boxes();
      add(String.format(Locale.ROOT, "%.2f", fault.boxes() / longest * BAR_REM / 2));
      add("rem\"></span> ").add(Integer.toString(fault.boxes())).add("</td>");
      cell(percent(fault.share())).cell(percent(fault.running())).add("</tr>\n");
    }
    end(content.faults().isEmpty());
    int left = content.faults().size() - MOST_ROWS;
    note(
        "The likeliest fault of each failed box; what the terminals cannot tell apart stands"
            + " together."
            + (left > 0 ? " " + left + " rarer ones are left out." : ""));
  }

  private static String percent(double share) {
    return String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }

  private void trend(String name, Outcome<ControlChart> outcome) {
    add("<section>\n<h2>Trend of ").add(Html.text(name)).add("</h2>\n");
    if (outcome instanceof Outcome.Found<ControlChart> found) {
      ControlChart chart = found.value();
      add("<figure>\n")
          .add(TrendChart.draw(chart, name, "trend-" + Integer.toHexString(name.hashCode())));
      add("<figcaption>Boxes that passed, in order of time. Mean ");
      add(Figures.plain(chart.mean())).add("; limits at 2.66 mean steps from one box to the next");
      add(", from the first ").add(Integer.toString(chart.baseline()));
      add(" boxes. They say what the shop does by itself and are no tolerance. Diamond: beyond a");
      add(" limit. Large dot: the eighth or a later one in a row on one side of the mean.");
      add("</figcaption>\n</figure>\n");
      list(chart);
    } else if (outcome instanceof Outcome.NoResult<ControlChart> none) {
      add("<p class=\"nocurve\">No chart: ").add(Html.text(none.because())).add(".</p>\n");
    }
    add("</section>\n");
  }

  private void list(ControlChart chart) {
    List<String> beyond = new ArrayList<>();
    for (ControlChart.Signal signal : chart.signals()) {
      if (signal.kind() == ControlChart.Kind.BEYOND) {
        var figure = chart.figures().get(signal.place());
        beyond.add(figure.serial() + " (" + Figures.plain(figure.value()) + ")");
      }
    }
    if (!beyond.isEmpty()) {
      note("Beyond a limit: " + String.join(", ", beyond.stream().limit(MOST_ROWS).toList()) + ".");
    }
  }

  private void runs(String title, List<RunLine> runs) {
    table(title, "Serial", "Job", "Attempts", "Last judged", "What was likely wrong");
    for (RunLine run : runs.stream().limit(MOST_ROWS).toList()) {
      add("<tr><th scope=\"row\">").add(serial(run)).add("</th>");
      cell(run.job()).cell(Integer.toString(run.attempt()));
      cell(
          run.decision().name().toLowerCase(Locale.ROOT).replace('_', ' ')
              + run.overruled()
                  .map(
                      other ->
                          ", overruled to "
                              + other.decision().name().toLowerCase(Locale.ROOT)
                              + " by "
                              + other.by()
                              + ": "
                              + other.reason())
                  .orElse(""));
      add("<td class=\"fault\">").add(Html.text(run.fault().orElse(""))).add("</td></tr>\n");
    }
    end(runs.isEmpty());
    if (runs.size() > MOST_ROWS) {
      note(runs.size() - MOST_ROWS + " more are left out; conewise records list shows all.");
    }
  }

  private String serial(RunLine run) {
    String serial = Html.text(run.serial());
    return served ? "<a href=\"/records/run/" + run.id() + "\">" + serial + "</a>" : serial;
  }

  private void table(String title, String... heads) {
    add("<section>\n<table>\n<caption>").add(title).add("</caption>\n<thead><tr>");
    for (String head : heads) {
      add("<th scope=\"col\">").add(head).add("</th>");
    }
    add("</tr></thead>\n<tbody>\n");
  }

  private void end(boolean none) {
    add("</tbody>\n</table>\n");
    if (none) {
      add("<p>None.</p>\n");
    }
    add("</section>\n");
  }

  private void note(String text) {
    add("<p class=\"reason\">").add(Html.text(text)).add("</p>\n");
  }

  private RecordsPage cell(String text) {
    return add("<td>").add(Html.text(text)).add("</td>");
  }

  private RecordsPage add(String text) {
    html.append(text);
    return this;
  }
}
