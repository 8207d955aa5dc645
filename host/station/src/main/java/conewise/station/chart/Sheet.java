package conewise.station.chart;

import conewise.station.card.PlainText;
import java.util.Locale;

/** One SVG element in the making, without script or outside reference; classes give the colours. */
final class Sheet {
  private final StringBuilder svg = new StringBuilder(16_384);

  /**
   * Begins it.
   *
   * @param id unlike that of any other on the page
   * @param title for those who cannot see it
   * @param description the same at length
   */
  Sheet(int width, int height, String id, String title, String description) {
    add("<svg viewBox=\"0 0 %d %d\" role=\"img\" ", width, height);
    add("aria-labelledby=\"%s-title %s-desc\" xmlns=\"http://www.w3.org/2000/svg\">\n", id, id);
    add("<title id=\"%s-title\">%s</title>\n", id, escaped(title));
    add("<desc id=\"%s-desc\">%s</desc>\n", id, escaped(description));
  }

  String end() {
    return svg.append("</svg>\n").toString();
  }

  void line(String style, double x1, double y1, double x2, double y2) {
    add("<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\"", style, x1, y1, x2);
    add(" y2=\"%.1f\"/>\n", y2);
  }

  void label(double x, double y, String anchor, String text) {
    add("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">", x, y, anchor);
    add("%s</text>\n", escaped(text));
  }

  /** The same in a style of its own. */
  void styled(String style, double x, double y, String anchor, String text) {
    add("<text class=\"%s\" x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">", style, x, y, anchor);
    add("%s</text>\n", escaped(text));
  }

  /** A name in a rounded frame, about a place. */
  void tag(String style, double x, double y, String text) {
    double half = 7 + 4.2 * text.length();
    add(
        "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\"",
        style, x - half, y - 10, 2 * half);
    add(" height=\"20\" rx=\"6\"/>\n");
    styled("tagged", x, y + 5, "middle", text);
  }

  /** A path by its data. */
  void path(String style, String data) {
    add("<path class=\"%s\" d=\"%s\"/>\n", style, data);
  }

  /** A label that runs upwards at the left edge. */
  void upright(double y, String text) {
    add("<text class=\"name\" text-anchor=\"middle\" transform=\"translate(16 %.1f)", y);
    add(" rotate(-90)\">%s</text>\n", escaped(text));
  }

  void dot(String style, double x, double y, double radius) {
    add("<circle class=\"%s\" cx=\"%.1f\" cy=\"%.1f\" r=\"%.1f\"/>\n", style, x, y, radius);
  }

  /** A square on its corner. */
  void diamond(double x, double y, double half) {
    add("<path class=\"mark\" d=\"M%.1f,%.1fL%.1f,%.1f", x - half, y, x, y - half);
    add("L%.1f,%.1fL%.1f,%.1fZ\"/>\n", x + half, y, x, y + half);
  }

  /** A line through points, each an x and a y; none where there are none. */
  void polyline(String style, Iterable<double[]> points) {
    if (!points.iterator().hasNext()) {
      return;
    }
    add("<polyline class=\"%s\" points=\"", style);
    points.forEach(point -> add("%.1f,%.1f ", point[0], point[1]));
    add("\"/>\n");
  }

  /** An area with points as its corners. */
  void area(String style, Iterable<double[]> points) {
    add("<polygon class=\"%s\" points=\"", style);
    points.forEach(point -> add("%.1f,%.1f ", point[0], point[1]));
    add("\"/>\n");
  }

  /** What dots and line mean, from a place to the right. */
  void measuredAndFitted(double x, double y) {
    dot("measured", x, y - 4, 3);
    label(x + 10, y, "start", "measured");
    line("fitted", x + 82, y - 4, x + 110, y - 4);
    label(x + 116, y, "start", "fitted");
  }

  /** Names come from plans: tamed, and the letters that mean something in SVG escaped. */
  private static String escaped(String text) {
    return PlainText.tame(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }
}
