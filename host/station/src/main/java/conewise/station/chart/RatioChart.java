package conewise.station.chart;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import conewise.station.records.comparison.CurveRatio;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;

/**
 * The ratio of two curves as one SVG element: its level in decibel above, its phase below. The page
 * needs the style {@code job-card.css}.
 */
public final class RatioChart {
  private static final double[] STEPS = {0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 45, 90};
  private static final int MOST_LINES = 8;

  private RatioChart() {}

  /** Draws it; {@code id} is unlike that of any other picture on the page. */
  public static String draw(CurveRatio ratio, String id) {
    List<CurveRatio.Point> points = ratio.points();
    FrequencyAxis axis =
        FrequencyAxis.around(
            points.get(0).frequencyHz(), points.get(points.size() - 1).frequencyHz());
    Sheet sheet =
        new Sheet(
            760,
            470,
            id,
            "Ratio of two impedance curves",
            "Level in decibel and phase in degrees from "
                + Figures.plain(axis.lowHz())
                + " to "
                + Figures.plain(axis.highHz())
                + " Hz.");
    pane(sheet, axis, points, CurveRatio.Point::decibel, 12, 240, "modulus", "level, dB");
    pane(sheet, axis, points, CurveRatio.Point::degrees, 262, 425, "phase", "phase, degrees")
        .frequencies(sheet);
    return sheet.end();
  }

  /** |Z| of both curves, A as a full line and B as a dashed one. */
  public static String both(ImpedanceCurve one, ImpedanceCurve other, String id) {
    List<ImpedancePoint> first = tones(one);
    List<ImpedancePoint> second = tones(other);
    FrequencyAxis axis =
        FrequencyAxis.around(
            Math.min(first.get(0).frequencyHz(), second.get(0).frequencyHz()),
            Math.max(one.highestHz(), other.highestHz()));
    OhmAxis ohm =
        OhmAxis.upTo(
            1.08
                * Stream.concat(first.stream(), second.stream())
                    .mapToDouble(ImpedancePoint::modulusOhm)
                    .max()
                    .orElseThrow());
    Sheet sheet =
        new Sheet(
            760,
            330,
            id,
            "Impedance of two runs",
            "Modulus in ohm: A a full line, B a dashed one.");
    FrequencyPane pane = new FrequencyPane(axis, 12, 285, 0, ohm.topOhm());
    pane.grid(sheet, ohm.stepOhm());
    pane.frequencies(sheet);
    sheet.polyline("modulus", line(pane, first));
    sheet.polyline("second", line(pane, second));
    sheet.upright(148, "|Z|, ohm");
    sheet.line("modulus", 600, 26, 640, 26);
    sheet.label(646, 30, "start", "A");
    sheet.line("second", 670, 26, 710, 26);
    sheet.label(716, 30, "start", "B");
    return sheet.end();
  }

  private static List<ImpedancePoint> tones(ImpedanceCurve curve) {
    return curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
  }

  private static List<double[]> line(FrequencyPane pane, List<ImpedancePoint> points) {
    return points.stream().map(point -> pane.at(point.frequencyHz(), point.modulusOhm())).toList();
  }

  private static FrequencyPane pane(
      Sheet sheet,
      FrequencyAxis axis,
      List<CurveRatio.Point> points,
      ToDoubleFunction<CurveRatio.Point> value,
      double top,
      double bottom,
      String style,
      String name) {
    double most =
        Math.max(0.1, points.stream().mapToDouble(value).map(Math::abs).max().orElseThrow());
    double step = step(most);
    double edge = step * Math.ceil(most * 1.05 / step);
    FrequencyPane pane = new FrequencyPane(axis, top, bottom, -edge, edge);
    pane.grid(sheet, step);
    sheet.polyline(
        style,
        points.stream()
            .map(point -> pane.at(point.frequencyHz(), value.applyAsDouble(point)))
            .toList());
    sheet.upright((top + bottom) / 2, name);
    return pane;
  }

  private static double step(double most) {
    for (double step : STEPS) {
      if (2 * most / step <= MOST_LINES) {
        return step;
      }
    }
    return STEPS[STEPS.length - 1];
  }
}
