package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.calculation.BadEntryException;
import conewise.station.calculation.Calculation;
import conewise.station.calculation.Entry;
import conewise.station.calculation.Worked;
import conewise.station.calculation.WorkedText;
import conewise.station.desk.Field.Choice;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** A calculation as a page: what it is asked with, and below it the answer. */
final class CalculationPage {
  private final Calculation calculation;

  CalculationPage(Calculation calculation) {
    this.calculation = calculation;
  }

  /** The page; an address with what is as good as not written leads to one without. */
  Reply answer(Asked asked) {
    Asked written = tidy(asked);
    if (!written.equals(asked) && !written.fields().isEmpty()) {
      return new Reply.Elsewhere(written.address(address(), names()));
    }
    Problems problems = new Problems();
    String answer = asked.fields().isEmpty() ? "" : work(written, problems);
    String html =
        Frame.around(
            calculation.title(),
            Frame.WORK_OUT,
            "",
            Frame.head("Conewise, worked out at the bench", calculation.title())
                + "<p class=\"about\">"
                + text(calculation.about())
                + "</p>\n"
                + form(asked, problems)
                + answer);
    return problems.any() ? Reply.toMend(html) : Reply.found(html);
  }

  private String address() {
    return Frame.WORK_OUT + "/" + calculation.name();
  }

  private List<String> names() {
    return calculation.entries().stream().map(Entry::name).toList();
  }

  /** What is asked for and written, a line each of what may be there more than once. */
  private Asked tidy(Asked asked) {
    Map<String, List<String>> fields = new LinkedHashMap<>();
    for (Entry entry : calculation.entries()) {
      List<String> texts =
          asked.all(entry.name()).stream()
              .flatMap(String::lines)
              .map(String::strip)
              .filter(line -> !line.isEmpty())
              .filter(line -> !line.equals(entry.usual().orElse("")))
              .toList();
      if (!texts.isEmpty()) {
        fields.put(entry.name(), texts);
      }
    }
    return new Asked(fields);
  }

  private String work(Asked written, Problems problems) {
    try {
      return answer(calculation.work(written.fields()));
    } catch (BadEntryException bad) {
      problems.add(bad.entry().orElse(""), bad.getMessage());
      return "";
    }
  }

  private String form(Asked asked, Problems problems) {
    StringBuilder html = new StringBuilder("<form class=\"entries\" action=\"");
    html.append(address()).append("#answer\">\n");
    calculation.entries().forEach(entry -> html.append(field(entry, asked, problems)));
    return html.append("<button>Work it out</button>\n</form>\n").toString();
  }

  private static String field(Entry entry, Asked asked, Problems problems) {
    boolean needed = entry.need() == Entry.Need.REQUIRED;
    Field field =
        new Field(
            entry.name(),
            entry.about() + (needed ? " (needed)" : ""),
            hint(entry),
            String.join("\n", asked.all(entry.name())),
            problems.of(entry.name()));
    if (entry.form() instanceof Entry.Choice words) {
      return chosen(field, entry).choice(choices(entry, words));
    }
    return entry.need() == Entry.Need.REPEATED
        ? field.lines(2, "")
        : field.line(" maxlength=\"300\" autocomplete=\"off\" spellcheck=\"false\"");
  }

  private static Field chosen(Field field, Entry entry) {
    String value = field.value().isEmpty() ? entry.usual().orElse("") : field.value();
    return new Field(field.name(), field.label(), "", value, field.problem());
  }

  private static List<Choice> choices(Entry entry, Entry.Choice words) {
    List<Choice> choices = new ArrayList<>();
    if (entry.usual().isEmpty()) {
      choices.add(new Choice("", ""));
    }
    words.words().forEach(word -> choices.add(new Choice(word, word)));
    return choices;
  }

  private static String hint(Entry entry) {
    List<String> parts = new ArrayList<>(List.of(entry.name()));
    if (!entry.unitsAllowed().isEmpty()) {
      parts.add("in " + String.join(", ", entry.unitsAllowed()));
    }
    entry.usual().ifPresent(usual -> parts.add(usual + " where nothing is written"));
    if (entry.need() == Entry.Need.REPEATED) {
      parts.add("a line for each");
    }
    return String.join("; ", parts);
  }

  private String answer(Worked worked) {
    StringBuilder html = new StringBuilder("<section id=\"answer\" class=\"answer\">\n");
    html.append("<h2>Answer</h2>\n<table>\n<tbody>\n");
    worked.rows().forEach(row -> html.append(row(row)));
    html.append("</tbody>\n</table>\n");
    worked.table().ifPresent(table -> html.append(table(table)));
    list(html, "Know beside it", worked.remarks());
    list(html, "Where it comes from", calculation.sources());
    return html.append("</section>\n").toString();
  }

  private static String row(Worked.Row row) {
    String value =
        row.value() instanceof Found<Double> found
            ? WorkedText.amount(found.value(), row.unit())
            : ((NoResult<Double>) row.value()).because();
    String other = row.other().map(each -> WorkedText.amount(each.value(), each.unit())).orElse("");
    return "<tr><th scope=\"row\">"
        + text(row.label())
        + "</th><td class=\"value\">"
        + text(value)
        + "</td><td>"
        + text(other)
        + "</td></tr>\n";
  }

  private static String table(Worked.Table table) {
    StringBuilder html = new StringBuilder("<table>\n<thead><tr>");
    for (Worked.Column column : table.columns()) {
      html.append("<th scope=\"col\">");
      html.append(text((column.label() + " " + column.unit()).strip())).append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
    for (List<Worked.Cell> row : table.cells()) {
      html.append(
          row.stream()
              .map(cell -> "<td class=\"wide\">" + text(WorkedText.words(cell)) + "</td>")
              .collect(Collectors.joining("", "<tr>", "</tr>\n")));
    }
    return html.append("</tbody>\n</table>\n").toString();
  }

  private static void list(StringBuilder html, String title, List<String> sentences) {
    if (!sentences.isEmpty()) {
      html.append("<h2>").append(title).append("</h2>\n<ul>\n");
      sentences.forEach(each -> html.append("<li>").append(text(each)).append("</li>\n"));
      html.append("</ul>\n");
    }
  }
}
