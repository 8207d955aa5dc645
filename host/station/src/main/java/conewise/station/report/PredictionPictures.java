package conewise.station.report;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.prediction.Telling;
import conewise.station.chart.FaultCurves;
import conewise.station.chart.FaultCurves.Curve;
import conewise.station.prediction.FaultGroup;
import conewise.station.prediction.NamedProspect;
import conewise.station.prediction.PredictionAnswer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The pictures of curves in a prediction, each with a key to it. */
final class PredictionPictures {
  /** In a picture of half the page's width. */
  private static final int MOST_IN_PANEL = 4;

  private static final int MOST_OF_GROUP = 2;

  private final PredictionAnswer answer;
  private final Curve good;

  PredictionPictures(PredictionAnswer answer) {
    this.answer = answer;
    good = new Curve("good", points(answer.prediction().good()));
  }

  /** All curves, the most frequent faults told apart. */
  String overview() {
    List<NamedProspect> all = drawable(answer.prospects());
    List<NamedProspect> chosen = chosen(all);
    List<Curve> others =
        all.stream().filter(each -> !chosen.contains(each)).map(this::curve).toList();
    return figure(
            FaultCurves.wide(good, chosen.stream().map(this::curve).toList(), others, "overview"))
        + key(chosen);
  }

  /** The curves of a group, a few in a picture; blank where it has none. */
  String panels(FaultGroup group) {
    List<NamedProspect> all = drawable(answer.of(group));
    if (all.isEmpty()) {
      return "";
    }
    StringBuilder html = new StringBuilder("<div class=\"pair\">\n");
    int pictures = (all.size() + MOST_IN_PANEL - 1) / MOST_IN_PANEL;
    for (int i = 0; i < pictures; i++) {
      List<NamedProspect> some =
          all.subList(i * all.size() / pictures, (i + 1) * all.size() / pictures);
      String id = group.name().toLowerCase(java.util.Locale.ROOT) + "-" + i;
      String picture =
          figure(FaultCurves.narrow(good, some.stream().map(this::curve).toList(), id));
      // A picture by itself has its key beside it, not below.
      String between = pictures == 1 ? "</div>\n<div class=\"panel\">\n" : "";
      html.append("<div class=\"panel\">\n").append(picture).append(between);
      html.append(key(some)).append("</div>\n");
    }
    return html.append("</div>\n").toString();
  }

  private static List<NamedProspect> drawable(List<NamedProspect> some) {
    return some.stream().filter(NamedProspect::hasOwnCurve).toList();
  }

  /** The most frequent of all that are told, but not too many of one group. */
  private static List<NamedProspect> chosen(List<NamedProspect> all) {
    List<NamedProspect> chosen = new ArrayList<>();
    List<NamedProspect> byOdds =
        all.stream().sorted(Comparator.comparingDouble(each -> -odds(each))).toList();
    for (NamedProspect each : byOdds) {
      long before = chosen.stream().filter(other -> other.group() == each.group()).count();
      if (before < MOST_OF_GROUP && chosen.size() < FaultCurves.MOST) {
        chosen.add(each);
      }
    }
    return chosen;
  }

  private static double odds(NamedProspect each) {
    double rate = each.prospect().faults().stream().mapToDouble(fault -> fault.rate()).sum();
    return each.prospect().telling().kind() == Telling.Kind.SURELY ? 2 * rate : rate;
  }

  private Curve curve(NamedProspect each) {
    if (each.prospect().curve() instanceof Found<ImpedanceCurve> found) {
      return new Curve(each.name(), points(found.value()));
    }
    throw new IllegalArgumentException(each.name() + " has no curve to draw");
  }

  private static List<ImpedancePoint> points(ImpedanceCurve curve) {
    return curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
  }

  private static String figure(String svg) {
    return "<figure class=\"curves\">\n" + svg + "</figure>\n";
  }

  /** The planned curve stands for all that look like it. */
  private String goodWords() {
    List<String> alike = answer.told(Telling.Kind.NEVER).stream().map(NamedProspect::name).toList();
    return alike.isEmpty() ? "as planned" : "as planned; the same with " + String.join(", ", alike);
  }

  private String key(List<NamedProspect> some) {
    StringBuilder html = new StringBuilder("<ul class=\"key\">\n");
    html.append(entry("good", "good", goodWords()));
    for (int i = 0; i < some.size(); i++) {
      html.append(entry("fault-" + (i + 1), some.get(i).name(), some.get(i).faults()));
    }
    return html.append("</ul>\n").toString();
  }

  private static String entry(String style, String name, String words) {
    return "<li><svg viewBox=\"0 0 51 11\" aria-hidden=\"true\"><line class=\"curve "
        + style
        + "\" x1=\"0\" y1=\"5.5\" x2=\"51\" y2=\"5.5\"/></svg><b>"
        + name
        + "</b><span>"
        + Html.text(words)
        + "</span></li>\n";
  }
}
