package conewise.station.desk;

import static conewise.station.report.Html.text;

import java.util.List;
import java.util.Optional;

/**
 * One field of a form, with its label, what may be written in it, and beside it what is wrong.
 *
 * @param name its name in the address
 * @param label what it is
 * @param hint what may be written; blank where that goes without saying
 * @param value what is written
 * @param problem what is wrong with that
 */
record Field(String name, String label, String hint, String value, Optional<String> problem) {

  static Field of(Asked asked, Problems problems, String name, String label) {
    return new Field(name, label, "", asked.shown(name), problems.of(name));
  }

  Field hinting(String other) {
    return new Field(name, label, other, value, problem);
  }

  /** A line to write in; {@code more} are further attributes. */
  String line(String more) {
    return around("<input" + attributes() + " value=\"" + text(value) + "\"" + more + ">");
  }

  /** Several lines to write in. */
  String lines(int rows, String more) {
    return around(
        "<textarea"
            + attributes()
            + " rows=\""
            + rows
            + "\""
            + more
            + ">\n"
            + lined(value)
            + "</textarea>");
  }

  /** Line ends stay, the rest is escaped. */
  private static String lined(String written) {
    return String.join("\n", written.lines().map(line -> text(line)).toList());
  }

  /** One of some words. */
  String choice(List<Choice> choices) {
    StringBuilder html = new StringBuilder("<select").append(attributes()).append('>');
    for (Choice each : choices) {
      html.append("<option value=\"").append(text(each.value())).append('"');
      html.append(each.value().equals(value) ? " selected>" : ">");
      html.append(text(each.words())).append("</option>");
    }
    return around(html.append("</select>").toString());
  }

  /**
   * What can be chosen.
   *
   * @param value in the address
   * @param words for people
   */
  record Choice(String value, String words) {}

  private String attributes() {
    String about =
        (problem.isPresent() ? name + "-wrong " : "") + (hint.isEmpty() ? "" : name + "-hint");
    return " id=\""
        + name
        + "\" name=\""
        + name
        + '"'
        + (about.isEmpty() ? "" : " aria-describedby=\"" + about.strip() + '"')
        + (problem.isPresent() ? " aria-invalid=\"true\" autofocus" : "");
  }

  private String around(String input) {
    return "<div class=\"field\"><label for=\""
        + name
        + "\">"
        + text(label)
        + "</label>"
        + input
        + problem
            .map(each -> "<p class=\"wrong\" id=\"" + name + "-wrong\">" + text(each) + "</p>")
            .orElse("")
        + (hint.isEmpty()
            ? ""
            : "<p class=\"hint\" id=\"" + name + "-hint\">" + text(hint) + "</p>")
        + "</div>\n";
  }
}
