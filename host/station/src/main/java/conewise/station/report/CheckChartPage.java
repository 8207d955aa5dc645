package conewise.station.report;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.station.chart.TrendChart;
import conewise.station.records.trend.ControlChart;
import java.util.List;

/** Check resistors over time, as one HTML page that stands alone. */
public final class CheckChartPage {
  private CheckChartPage() {}

  /**
   * One resistor on one jig.
   *
   * @param title which
   * @param chart its readings, or why they have no limits
   * @param sentence what is said of the latest reading
   */
  public record Part(String title, Outcome<ControlChart> chart, String sentence) {}

  /** Writes the page. */
  public static String write(List<Part> parts) {
    StringBuilder html = new StringBuilder(32_768);
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.append("<title>Check resistors</title>\n<style>\n");
    for (String style : List.of("job-card.css", "records.css")) {
      html.append(PageStyle.named(style));
    }
    html.append("</style>\n</head>\n<body class=\"records\">\n<main>\n<header>\n");
    html.append("<p class=\"kind\"><span>Conewise fixture</span></p>\n");
    html.append("<h1>Check resistors</h1>\n</header>\n");
    for (int i = 0; i < parts.size(); i++) {
      Part part = parts.get(i);
      html.append("<section>\n<h2>").append(Html.text(part.title())).append("</h2>\n");
      html.append("<p>").append(Html.text(part.sentence())).append("</p>\n");
      if (part.chart() instanceof Found<ControlChart> found) {
        html.append("<figure>\n");
        html.append(
            TrendChart.draw(found.value(), "resistance", "check-" + i, TrendChart.READINGS));
        html.append("</figure>\n");
      }
      html.append("</section>\n");
    }
    html.append("<footer><p>The limits are what the jig keeps by itself; they are no tolerance.");
    return html.append("</p></footer>\n</main>\n</body>\n</html>\n").toString();
  }
}
