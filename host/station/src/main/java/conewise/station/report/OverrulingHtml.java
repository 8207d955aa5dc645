package conewise.station.report;

import static conewise.station.report.Html.text;

import conewise.station.card.VerdictSign;
import conewise.station.records.Overruling;

/**
 * A person's decision beside a verdict: never in its place, and never without the person's name.
 */
public final class OverrulingHtml {
  private OverrulingHtml() {}

  /**
   * A paragraph for a page that has job-card.css.
   *
   * @param when it was, for people; blank where that is not said
   */
  public static String of(Overruling overruling, String when) {
    VerdictSign to = VerdictSign.of(overruling.decision());
    return "<p class=\"overruled "
        + to.machineWord()
        + "\">"
        + SignDrawing.of(to)
        + "<span><b>"
        + to(overruling)
        + "</b> "
        + text(overruling.words())
        + (when.isBlank() ? "" : " <span class=\"when\">" + text(when) + "</span>")
        + "</span></p>\n";
  }

  /** Plain text: {@code To FAIL. Overruled by Grace: It hums.} */
  public static String words(Overruling overruling) {
    return to(overruling) + " " + overruling.words();
  }

  private static String to(Overruling overruling) {
    return "To " + VerdictSign.of(overruling.decision()).word() + ".";
  }
}
