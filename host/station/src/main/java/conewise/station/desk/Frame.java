package conewise.station.desk;

import static conewise.station.report.Html.text;

import java.util.LinkedHashMap;
import java.util.Map;

/** What stands around each page: its head, and the way to the other ones. */
final class Frame {
  static final String RECORDS = "/records";
  static final String OWNER = "/records/owner";
  static final String COMPARE = "/records/compare";
  static final String RUN = "/records/run/";
  static final String WORK_OUT = "/work-out";

  private static final Map<String, String> WAYS = new LinkedHashMap<>();

  static {
    WAYS.put("/", "Bench");
    WAYS.put(RECORDS, "Records");
    WAYS.put(OWNER, "Owner's page");
    WAYS.put(WORK_OUT, "Work out");
  }

  private Frame() {}

  /**
   * A whole page.
   *
   * @param title for the browser's own line
   * @param here the address of the page of {@link #WAYS} that it belongs to
   * @param tone the class of its ground: a verdict's, or blank
   * @param body what stands on the card
   */
  static String around(String title, String here, String tone, String body) {
    StringBuilder html = new StringBuilder(body.length() + 2048);
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.append("<title>").append(text(title)).append("</title>\n");
    for (String style : new String[] {"job-card.css", "records.css", "desk.css"}) {
      html.append("<link rel=\"stylesheet\" href=\"/").append(style).append("\">\n");
    }
    html.append("</head>\n<body class=\"desk records ").append(tone).append("\">\n");
    html.append("<nav aria-label=\"Pages\">");
    WAYS.forEach(
        (address, words) -> {
          html.append("<a href=\"").append(address).append('"');
          html.append(address.equals(here) ? " aria-current=\"page\">" : ">");
          html.append(words).append("</a> ");
        });
    return html.append("</nav>\n<main>\n")
        .append(body)
        .append("</main>\n</body>\n</html>\n")
        .toString();
  }

  /** The head of a card without a verdict. */
  static String head(String kind, String title) {
    return "<header>\n<p class=\"kind\"><span>"
        + text(kind)
        + "</span></p>\n<h1>"
        + text(title)
        + "</h1>\n</header>\n";
  }

  /** A page that says in a sentence why there is no other. */
  static String sorry(String title, String here, String sentence) {
    return around(
        title,
        here,
        "",
        head("Conewise", title) + "<p class=\"wrong alone\">" + text(sentence) + "</p>\n");
  }
}
