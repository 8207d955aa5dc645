package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.prediction.ExpectedBand;
import conewise.station.card.PlainText;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/** Draws what a measured curve is held against, and names each line in words beside it. */
final class BackdropPen {
  /** A name is broken into lines of so many letters. */
  private static final int NAME_LETTERS = 34;

  /** Room for a piece of the line before its name. */
  private static final double SAMPLE = 32;

  private static final double SAMPLE_LINE = 26;

  private final Drawing drawing;
  private final Axes axes;
  private final CurveNames names;
  private final StringBuilder svg;
  private final List<ExpectedBand.Level> levels;
  private final List<ImpedancePoint> fault;

  /**
   * Where values stand in the picture.
   *
   * @param frequency what of it is shown
   * @param x of a frequency in Hz
   * @param modulusY of |Z| in ohm
   * @param phaseY of a phase in degrees
   */
  record Axes(
      FrequencyAxis frequency,
      DoubleUnaryOperator x,
      DoubleUnaryOperator modulusY,
      DoubleUnaryOperator phaseY) {}

  /**
   * A pen.
   *
   * @param names places in the pane of |Z|
   * @param svg what it writes to
   */
  BackdropPen(Drawing drawing, Axes axes, CurveNames names, StringBuilder svg) {
    this.drawing = drawing;
    this.axes = axes;
    this.names = names;
    this.svg = svg;
    levels =
        drawing.backdrop().expected().stream()
            .flatMap(band -> band.levels().stream())
            .filter(level -> axes.frequency.holds(level.frequencyHz()))
            .toList();
    fault =
        drawing.backdrop().suspectedCurve().stream()
            .flatMap(curve -> curve.points().stream())
            .filter(point -> axes.frequency.holds(point.frequencyHz()))
            .toList();
  }

  /** Where a good box is expected, in both panes. */
  void expected() {
    if (levels.size() > 1) {
      add("<g class=\"expected\">");
      band(axes.modulusY, ExpectedBand.Level::modulusOhm);
      band(axes.phaseY, ExpectedBand.Level::phaseDegrees);
      add("</g>\n");
    }
  }

  private void band(DoubleUnaryOperator y, Function<ExpectedBand.Level, Interval> value) {
    add("<path d=\"M");
    for (ExpectedBand.Level level : levels) {
      vertex(level.frequencyHz(), y.applyAsDouble(value.apply(level).high()));
    }
    for (int i = levels.size() - 1; i >= 0; i--) {
      vertex(levels.get(i).frequencyHz(), y.applyAsDouble(value.apply(levels.get(i)).low()));
    }
    add("Z\"/>");
  }

  /** What the likeliest fault would show, in both panes. */
  void suspected() {
    if (fault.size() > 1) {
      line(axes.phaseY, ImpedancePoint::phaseDegrees);
      line(axes.modulusY, ImpedancePoint::modulusOhm);
    }
  }

  private void line(DoubleUnaryOperator y, ToDoubleFunction<ImpedancePoint> value) {
    add("<polyline class=\"suspected\" points=\"");
    fault.forEach(p -> vertex(p.frequencyHz(), y.applyAsDouble(value.applyAsDouble(p))));
    add("\"/>\n");
  }

  private void vertex(double hz, double y) {
    add("%.1f,%.1f ", axes.x.applyAsDouble(hz), y);
  }

  /**
   * What each line of |Z| is, in words beside it.
   *
   * @param taken where labels stand already
   */
  void names(List<CurveNames.Room> taken) {
    if (levels.size() < 2) {
      return;
    }
    List<double[]> measured = on(drawing.points());
    List<double[]> suspected = on(fault);
    List<double[]> upper = edge(Interval::high);
    List.of(measured, suspected, upper, edge(Interval::low)).forEach(names::draw);
    drawing.floorOhm().ifPresent(floor -> names.draw(level(floor)));
    taken.forEach(names::take);
    if (suspected.size() > 1) {
      name("suspected", drawing.backdrop().suspected().orElseThrow().words(), suspected);
    }
    if (measured.size() > 1) {
      name("modulus" + drawing.line().style(), drawing.line().words(), measured);
    }
    name("expected", "expected by the plan", upper);
  }

  private List<double[]> on(List<ImpedancePoint> points) {
    return points.stream().map(p -> at(p.frequencyHz(), p.modulusOhm())).toList();
  }

  private List<double[]> edge(ToDoubleFunction<Interval> end) {
    return levels.stream()
        .map(each -> at(each.frequencyHz(), end.applyAsDouble(each.modulusOhm())))
        .toList();
  }

  private List<double[]> level(double ohm) {
    return List.of(at(axes.frequency.lowHz(), ohm), at(axes.frequency.highHz(), ohm));
  }

  private double[] at(double hz, double ohm) {
    return new double[] {axes.x.applyAsDouble(hz), axes.modulusY.applyAsDouble(ohm)};
  }

  private void name(String style, String words, List<double[]> curve) {
    List<String> lines = PlainText.wrap(words, NAME_LETTERS);
    names.place(lines, SAMPLE, curve).ifPresent(place -> name(style, lines, place));
  }

  /** A thin line that leads to the curve, a piece of the curve's own, and its name. */
  private void name(String style, List<String> lines, CurveNames.Place place) {
    add("<line class=\"leader\" x1=\"%.1f\" y1=\"%.1f\"", place.from().x(), place.from().y());
    add(" x2=\"%.1f\" y2=\"%.1f\"/>\n", place.to().x(), place.to().y());
    double x = place.room().x();
    double y = place.room().y();
    add("<g class=\"%s\"><path d=\"M%.1f,%.1fh%.1f", style, x, y + 7, SAMPLE_LINE);
    add("%s\"/></g>\n", style.equals("expected") ? "v5h-" + (int) SAMPLE_LINE + "z" : "");
    for (int i = 0; i < lines.size(); i++) {
      add("<text x=\"%.1f\" y=\"%.1f\"", x + SAMPLE, y + CurveNames.LINE_HEIGHT * i + 11);
      add(" text-anchor=\"start\">%s</text>\n", escaped(lines.get(i)));
    }
  }

  /** Names come from plans. */
  static String escaped(String text) {
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }
}
