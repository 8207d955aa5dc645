package conewise.station.documents;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A drawing of one of the program's pages as a file of its own, its style sheet taken along. */
final class StandaloneDrawing {
  private static final Pattern STYLE = Pattern.compile("<style>(.*?)</style>", Pattern.DOTALL);

  private StandaloneDrawing() {}

  /** Whether a file shows what a drawing shows; looks are not compared. */
  static boolean same(String file, String drawing) {
    return STYLE.matcher(file).replaceAll("").equals(STYLE.matcher(drawing).replaceAll(""));
  }

  static String of(String svg, String html) {
    StringBuilder style = new StringBuilder();
    Matcher sheet = STYLE.matcher(html);
    while (sheet.find()) {
      style.append(sheet.group(1).strip()).append('\n');
    }
    String open = svg.substring(0, svg.indexOf('>') + 1);
    String named =
        open.contains("xmlns=")
            ? open
            : open.replaceFirst("<svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"");
    return named
        + "\n<style>\nsvg { font-family: \"Liberation Sans\", Arial, Helvetica, sans-serif; }\n"
        + style.toString().replace("&", "&amp;").replace("<", "&lt;")
        + "</style>\n"
        + svg.substring(open.length())
        + "\n";
  }
}
