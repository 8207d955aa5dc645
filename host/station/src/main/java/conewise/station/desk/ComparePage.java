package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.comparison.CurveRatio;
import conewise.station.records.store.RecordStore;
import conewise.station.report.ComparisonPage;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Two kept curves, one over the other. */
final class ComparePage {
  private static final String FIELD = "run";

  private final RecordStore store;

  ComparePage(RecordStore store) {
    this.store = store;
  }

  Reply answer(Asked asked) throws RecordsException {
    List<String> numbers = asked.all(FIELD);
    List<String> wrong = new ArrayList<>();
    String curves = "";
    if (numbers.size() == 2) {
      Optional<KeptRun> one = run(numbers.get(0), wrong);
      Optional<KeptRun> other = run(numbers.get(1), wrong);
      if (one.isPresent() && other.isPresent()) {
        curves = curves(one.get(), other.get(), wrong);
      }
    } else if (!numbers.isEmpty()) {
      wrong.add("Two runs are compared; " + numbers.size() + " were named.");
    }
    StringBuilder html = new StringBuilder(Frame.head("Conewise records", "Two curves"));
    html.append("<form class=\"filters\" action=\"").append(Frame.COMPARE).append("\">\n");
    html.append(field("a", "A, run", numbers, 0)).append(field("b", "B, run", numbers, 1));
    html.append("<button>Compare</button>\n</form>\n");
    wrong.forEach(
        each -> html.append("<p class=\"wrong alone\">").append(text(each)).append("</p>\n"));
    String page = Frame.around("Two curves", Frame.RECORDS, "", html.append(curves).toString());
    return wrong.isEmpty() ? Reply.found(page) : Reply.toMend(page);
  }

  private static String field(String id, String label, List<String> numbers, int place) {
    String value = place < numbers.size() ? numbers.get(place) : "";
    return "<div class=\"field\"><label for=\""
        + id
        + "\">"
        + label
        + "</label><input id=\""
        + id
        + "\" name=\"run\" inputmode=\"numeric\" maxlength=\"19\" required value=\""
        + text(value)
        + "\"></div>\n";
  }

  private Optional<KeptRun> run(String number, List<String> wrong) throws RecordsException {
    Optional<KeptRun> run =
        number.matches("[0-9]{1,18}")
            ? store.runWithoutCaptures(Long.parseLong(number))
            : Optional.empty();
    if (run.isEmpty()) {
      wrong.add("There is no run " + number + " in the records; their list has the numbers.");
    }
    return run;
  }

  private static String curves(KeptRun one, KeptRun other, List<String> wrong) {
    List<ImpedanceCurve> both = new ArrayList<>();
    for (KeptRun each : List.of(one, other)) {
      Outcome<ImpedanceCurve> curve = each.run().measurement().curve();
      if (curve instanceof Found<ImpedanceCurve> found) {
        both.add(found.value());
      } else {
        String because = ((NoResult<ImpedanceCurve>) curve).because();
        wrong.add("Run " + each.id() + " has no curve: " + because + ".");
      }
    }
    if (both.size() < 2) {
      return "";
    }
    Outcome<CurveRatio> ratio = CurveRatio.of(both.get(0), both.get(1));
    if (ratio instanceof Found<CurveRatio> found) {
      return ComparisonPage.sections(
          linked(one), linked(other), both.get(0), both.get(1), found.value());
    }
    wrong.add("They cannot be compared: " + ((NoResult<CurveRatio>) ratio).because() + ".");
    return "";
  }

  private static String linked(KeptRun run) {
    return "<a href=\"" + Frame.RUN + run.id() + "\">" + text(run.words()) + "</a>";
  }
}
