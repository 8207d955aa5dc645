package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import conewise.station.card.Mark;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * Modulus and phase over logarithmic frequency as one SVG element without script or outside
 * reference. Colours and letters come from the page's style by class name.
 */
public final class SvgChart {
  private static final Pane MODULUS = new Pane(62, 742, 14, 270);
  private static final Pane PHASE = new Pane(62, 742, 292, 392);
  private static final int WIDTH = 760;
  private static final int HEIGHT = 432;

  /** Room above the highest peak for its label. */
  private static final double HEADROOM = 1.15;

  private final Drawing drawing;
  private final FrequencyAxis frequency;
  private final OhmAxis ohm;
  private final double phaseSpan;
  private final LabelPlaces places = new LabelPlaces(MODULUS.left, MODULUS.right);

  /** Where labels stand that no name may cover. */
  private final List<CurveNames.Room> rooms = new ArrayList<>();

  private final StringBuilder svg = new StringBuilder(16_384);
  private final BackdropPen backdrop;

  private SvgChart(Drawing drawing) {
    this.drawing = drawing;
    this.frequency = drawing.frequencyAxis();
    this.ohm = OhmAxis.upTo(drawing.largestOhm() * HEADROOM);
    boolean wide =
        drawing.points().stream().anyMatch(point -> Math.abs(point.phaseDegrees()) > 90.5);
    this.phaseSpan = wide ? 180 : 90;
    backdrop =
        new BackdropPen(
            drawing,
            new BackdropPen.Axes(
                frequency,
                this::x,
                modulus -> MODULUS.y(ohm.position(modulus)),
                degrees -> PHASE.y(phasePosition(degrees))),
            new CurveNames(MODULUS.left, MODULUS.right, MODULUS.top, MODULUS.bottom),
            svg);
  }

  /**
   * Draws.
   *
   * @param drawing what to draw
   * @return one {@code <svg>} element, with a title and a description for those who cannot see it
   */
  public static String draw(Drawing drawing) {
    return new SvgChart(drawing).draw();
  }

  private String draw() {
    add("<svg viewBox=\"0 0 %d %d\" role=\"img\" ", WIDTH, HEIGHT);
    add("aria-labelledby=\"chart-title chart-desc\" xmlns=\"http://www.w3.org/2000/svg\">\n");
    add("<title id=\"chart-title\">Impedance over frequency</title>\n");
    add("<desc id=\"chart-desc\">%s</desc>\n", describe());
    grid();
    allowedBand();
    backdrop.expected();
    uncertainty(MODULUS, point -> point.modulusOhm(), p -> spread(p).modulusOhm());
    uncertainty(PHASE, point -> point.phaseDegrees(), p -> spread(p).phaseDegrees());
    curve(PHASE, "phase" + drawing.line().style(), ImpedancePoint::phaseDegrees);
    curve(MODULUS, "modulus" + drawing.line().style(), ImpedancePoint::modulusOhm);
    backdrop.suspected();
    marks();
    floor();
    backdrop.names(rooms);
    axisNames();
    return svg.append("</svg>\n").toString();
  }

  private PolarSpread spread(ImpedancePoint point) {
    return PolarSpread.of(point, drawing.scaleUncertainty());
  }

  private String describe() {
    StringBuilder text = new StringBuilder("Modulus in ohm and phase in degrees from ");
    text.append(Figures.plain(frequency.lowHz())).append(" to ");
    text.append(Figures.plain(frequency.highHz())).append(" Hz.");
    if (drawing.line() == Drawing.Line.ESTIMATED) {
      text.append(" So far: it may still move.");
    }
    for (Mark mark : drawing.marks()) {
      text.append(mark.kind() == Mark.Kind.PEAK ? " Peak of " : " Dip to ");
      text.append(Figures.plain(mark.modulusOhm())).append(" ohm at ");
      text.append(Figures.plain(mark.frequencyHz())).append(" Hz.");
    }
    drawing
        .backdrop()
        .suspected()
        .ifPresent(
            each ->
                text.append(" Dashed: what the box would show if ")
                    .append(BackdropPen.escaped(each.words()))
                    .append('.'));
    return text.toString();
  }

  private void allowedBand() {
    drawing
        .visibleBand(frequency)
        .ifPresent(
            band -> {
              double left = x(band.low());
              double right = x(band.high());
              add("<rect class=\"allowed\" x=\"%.1f\" y=\"%.1f\"", left, MODULUS.top);
              add(" width=\"%.1f\"", Math.max(1, right - left));
              add(" height=\"%.1f\"/>\n", PHASE.bottom - MODULUS.top);
              // In the phase's pane, where no mark stands.
              label((left + right) / 2, PHASE.bottom - 6, "middle", drawing.allowedLabel());
            });
  }

  private void grid() {
    for (double hz : frequency.minorTicksHz()) {
      verticals("minor", hz);
    }
    for (double hz : frequency.ticksHz()) {
      verticals("major", hz);
      label(x(hz), PHASE.bottom + 16, "middle", Figures.plain(hz));
    }
    for (double tick : ohm.ticksOhm()) {
      double y = MODULUS.y(ohm.position(tick));
      line("major", MODULUS.left, y, MODULUS.right, y);
      label(MODULUS.left - 6, y + 4, "end", Figures.plain(tick));
    }
    for (double degrees = -phaseSpan; degrees <= phaseSpan; degrees += phaseSpan / 2) {
      double y = PHASE.y(phasePosition(degrees));
      line(degrees == 0 ? "zero" : "major", PHASE.left, y, PHASE.right, y);
      label(PHASE.left - 6, y + 4, "end", Figures.plain(degrees));
    }
  }

  private void verticals(String style, double hz) {
    line(style, x(hz), MODULUS.top, x(hz), MODULUS.bottom);
    line(style, x(hz), PHASE.top, x(hz), PHASE.bottom);
  }

  private void floor() {
    drawing
        .floorOhm()
        .filter(floor -> floor < ohm.topOhm())
        .ifPresent(
            floor -> {
              double y = MODULUS.y(ohm.position(floor));
              line("floor", MODULUS.left, y, MODULUS.right, y);
            });
  }

  private void uncertainty(
      Pane pane, ToDoubleFunction<ImpedancePoint> value, ToDoubleFunction<ImpedancePoint> half) {
    List<ImpedancePoint> points = drawing.points();
    if (points.stream().noneMatch(point -> half.applyAsDouble(point) > 0)) {
      return;
    }
    add("<path class=\"spread\" d=\"M");
    for (ImpedancePoint point : points) {
      vertex(pane, point.frequencyHz(), value.applyAsDouble(point) + half.applyAsDouble(point));
    }
    for (int i = points.size() - 1; i >= 0; i--) {
      ImpedancePoint point = points.get(i);
      vertex(pane, point.frequencyHz(), value.applyAsDouble(point) - half.applyAsDouble(point));
    }
    add("Z\"/>\n");
  }

  private void curve(Pane pane, String style, ToDoubleFunction<ImpedancePoint> value) {
    if (drawing.points().size() == 1) {
      ImpedancePoint only = drawing.points().get(0);
      double y = pane.y(position(pane, value.applyAsDouble(only)));
      add("<circle class=\"%s\" cx=\"%.1f\" cy=\"%.1f\"", style, x(only.frequencyHz()), y);
      add(" r=\"3\"/>\n");
      return;
    }
    if (!drawing.points().isEmpty()) {
      polyline(pane, style, drawing.points(), value);
    }
  }

  private void polyline(
      Pane pane,
      String style,
      List<ImpedancePoint> points,
      ToDoubleFunction<ImpedancePoint> value) {
    add("<polyline class=\"%s\" points=\"", style);
    points.forEach(point -> vertex(pane, point.frequencyHz(), value.applyAsDouble(point)));
    add("\"/>\n");
  }

  private void vertex(Pane pane, double hz, double value) {
    add("%.1f,%.1f ", x(hz), pane.y(position(pane, value)));
  }

  private void marks() {
    for (Mark mark : drawing.marks()) {
      if (frequency.holds(mark.frequencyHz())) {
        mark(mark);
      }
    }
  }

  private void mark(Mark mark) {
    boolean peak = mark.kind() == Mark.Kind.PEAK;
    double x = x(mark.frequencyHz());
    double y = MODULUS.y(ohm.position(mark.modulusOhm())) + (peak ? -4 : 4);
    double far = peak ? y - 9 : y + 9;
    add("<path class=\"mark\" d=\"M%.1f,%.1fL%.1f,%.1fL%.1f,%.1f", x, y, x - 5, far, x + 5, far);
    add("Z\"/>\n");
    String text =
        Figures.plain(mark.frequencyHz()) + " Hz, " + Figures.plain(mark.modulusOhm()) + " ohm";
    LabelPlaces.Place place = places.place(x, peak ? far - 5 : far + 13, text.length(), peak);
    label(place.centre(), place.baseline(), "middle", text);
    rooms.add(
        new CurveNames.Room(
            place.centre() - place.width() / 2, place.baseline() - 11, place.width(), 14));
    rooms.add(new CurveNames.Room(x - 6, Math.min(y, far), 12, 9));
  }

  private void axisNames() {
    label((MODULUS.left + MODULUS.right) / 2, HEIGHT - 6, "middle", "frequency, Hz");
    upright((MODULUS.top + MODULUS.bottom) / 2, "|Z|, ohm");
    upright((PHASE.top + PHASE.bottom) / 2, "phase, degrees");
  }

  private void upright(double y, String text) {
    add("<text class=\"name\" text-anchor=\"middle\" transform=\"translate(16 %.1f)", y);
    add(" rotate(-90)\">%s</text>\n", text);
  }

  private double x(double hz) {
    return MODULUS.left + frequency.position(hz) * (MODULUS.right - MODULUS.left);
  }

  private double position(Pane pane, double value) {
    return pane.equals(MODULUS) ? ohm.position(value) : phasePosition(value);
  }

  private double phasePosition(double degrees) {
    return Math.max(0, Math.min(1, (degrees + phaseSpan) / (2 * phaseSpan)));
  }

  private void line(String style, double x1, double y1, double x2, double y2) {
    add("<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\"", style, x1, y1, x2);
    add(" y2=\"%.1f\"/>\n", y2);
  }

  private void label(double x, double y, String anchor, String text) {
    add("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>\n", x, y, anchor, text);
  }

  private void add(String format, Object... values) {
    svg.append(String.format(Locale.ROOT, format, values));
  }

  /** A rectangle to draw in. */
  private record Pane(double left, double right, double top, double bottom) {
    double y(double position) {
      return bottom - position * (bottom - top);
    }
  }
}
