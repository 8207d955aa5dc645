package conewise.station.report;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.station.chart.RatioChart;
import conewise.station.records.comparison.CurveRatio;
import java.util.List;

/** Two kept curves over one another and their ratio, as one HTML page that stands alone. */
public final class ComparisonPage {
  private ComparisonPage() {}

  /**
   * Writes the page.
   *
   * @param first what the first curve is, for people
   * @param second the same of the second
   * @param one the first curve, named A
   * @param other the second curve, named B
   * @param ratio the first over the second
   */
  public static String write(
      String first, String second, ImpedanceCurve one, ImpedanceCurve other, CurveRatio ratio) {
    StringBuilder html = new StringBuilder(65_536);
    String title = first + " beside " + second;
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.append("<title>").append(Html.text(title)).append("</title>\n<style>\n");
    for (String style : List.of("job-card.css", "records.css")) {
      html.append(PageStyle.named(style));
    }
    html.append("</style>\n</head>\n<body class=\"records\">\n<main>\n<header>\n");
    html.append("<p class=\"kind\"><span>Conewise records</span></p>\n<h1>Two curves</h1>\n");
    html.append("</header>\n");
    html.append(sections(Html.text(first), Html.text(second), one, other, ratio));
    return html.append("</main>\n</body>\n</html>\n").toString();
  }

  /**
   * The same without what stands around it, for a page that has records.css.
   *
   * @param first what the first curve is, as HTML
   * @param second the same of the second
   */
  public static String sections(
      String first, String second, ImpedanceCurve one, ImpedanceCurve other, CurveRatio ratio) {
    StringBuilder html = new StringBuilder(65_536);
    html.append("<p><b>A</b> ").append(first).append("<br><b>B</b> ").append(second);
    html.append("</p>\n<section>\n");
    html.append("<h2>Both</h2>\n<figure>\n");
    html.append(RatioChart.both(one, other, "both"));
    html.append("</figure>\n</section>\n<section>\n<h2>A over B</h2>\n<figure>\n");
    html.append(RatioChart.draw(ratio, "ratio")).append("</figure>\n<ul>\n");
    ratio
        .sentences()
        .forEach(line -> html.append("<li>").append(Html.text(line)).append("</li>\n"));
    return html.append("</ul>\n</section>\n").toString();
  }
}
