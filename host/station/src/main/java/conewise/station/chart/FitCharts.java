package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;

/**
 * A fitted sweep in pictures over frequency: the curve, and what the fit leaves over. Each is one
 * SVG element; measured points are dots, the fit is a line.
 */
public final class FitCharts {
  private static final int WIDTH = 760;
  private static final double DOT = 2.6;

  /** Room above the highest peak for the legend. */
  private static final double HEADROOM = 1.12;

  private final FitDrawing drawing;
  private final FrequencyAxis frequency;

  private FitCharts(FitDrawing drawing) {
    this.drawing = drawing;
    frequency = drawing.frequencyAxis();
  }

  /**
   * Modulus and phase, measured and fitted.
   *
   * @param id unlike that of any other picture on the page
   */
  public static String curve(FitDrawing drawing, String id) {
    return new FitCharts(drawing).curve(id);
  }

  /**
   * Measured over fitted, in modulus and phase, and the band that noise and discrepancy explain.
   *
   * @param id unlike that of any other picture on the page
   */
  public static String residuals(FitDrawing drawing, String id) {
    return new FitCharts(drawing).residuals(id);
  }

  private String range() {
    return Figures.plain(frequency.lowHz()) + " to " + Figures.plain(frequency.highHz()) + " Hz";
  }

  private String curve(String id) {
    Sheet sheet =
        new Sheet(
            WIDTH,
            448,
            id,
            "Impedance, measured and fitted",
            "Modulus in ohm and phase in degrees from "
                + range()
                + ": dots measured, line fitted.");
    double most = Math.max(largest(drawing.measured()), largest(drawing.fitted())) * HEADROOM;
    OhmAxis ohm = OhmAxis.upTo(most);
    FrequencyPane modulus = new FrequencyPane(frequency, 14, 280, 0, ohm.topOhm());
    double span = isWide() ? 180 : 90;
    FrequencyPane phase = new FrequencyPane(frequency, 300, 406, -span, span);
    modulus.grid(sheet, ohm.stepOhm());
    phase.grid(sheet, span / 2);
    both(sheet, modulus, ImpedancePoint::modulusOhm);
    both(sheet, phase, ImpedancePoint::phaseDegrees);
    phase.frequencies(sheet);
    sheet.upright(147, "|Z|, ohm");
    sheet.upright(353, "phase, degrees");
    sheet.measuredAndFitted(FrequencyPane.RIGHT - 160, 30);
    return sheet.end();
  }

  private static double largest(List<ImpedancePoint> points) {
    return points.stream().mapToDouble(ImpedancePoint::modulusOhm).max().orElseThrow();
  }

  private boolean isWide() {
    return drawing.measured().stream().anyMatch(p -> Math.abs(p.phaseDegrees()) > 90.5);
  }

  /** Dots beneath, the line over them. */
  private void both(Sheet sheet, FrequencyPane pane, ToDoubleFunction<ImpedancePoint> value) {
    for (ImpedancePoint point : drawing.measured()) {
      sheet.dot("measured", pane.x(point.frequencyHz()), pane.y(value.applyAsDouble(point)), DOT);
    }
    sheet.polyline(
        "fitted",
        drawing.fitted().stream()
            .map(point -> pane.at(point.frequencyHz(), value.applyAsDouble(point)))
            .toList());
  }

  private String residuals(String id) {
    Sheet sheet =
        new Sheet(
            WIDTH,
            404,
            id,
            "Residual of the fit",
            "Measured less fitted, modulus in per cent and phase in degrees, from "
                + range()
                + "; shaded is what noise alone, and noise with the model's discrepancy, explain"
                + " for 95 of 100 points.");
    residual(sheet, 24, 178, drawing::modulusResidual, FitDrawing::modulusBand);
    FrequencyPane below = residual(sheet, 208, 362, drawing::phaseResidual, FitDrawing::phaseBand);
    below.frequencies(sheet);
    sheet.upright(101, "|Z| residual, %");
    sheet.upright(285, "phase residual, degrees");
    legend(sheet);
    return sheet.end();
  }

  private static void legend(Sheet sheet) {
    double x = FrequencyPane.LEFT;
    sheet.dot("measured", x + 8, 10, 3);
    sheet.label(x + 18, 14, "start", "measured less fitted");
    sheet.area("noise", corners(x + 172, 4, 28, 12));
    sheet.label(x + 206, 14, "start", "noise explains 95 %");
    sheet.area("explained", corners(x + 352, 4, 28, 12));
    sheet.label(x + 386, 14, "start", "noise and model discrepancy explain 95 %");
  }

  private static List<double[]> corners(double x, double y, double width, double height) {
    return List.of(
        new double[] {x, y},
        new double[] {x + width, y},
        new double[] {x + width, y + height},
        new double[] {x, y + height});
  }

  private FrequencyPane residual(
      Sheet sheet, double top, double bottom, IntToDoubleFunction left, DoubleUnaryOperator band) {
    double most = 0;
    for (int i = 0; i < drawing.measured().size(); i++) {
      most = Math.max(most, Math.abs(left.applyAsDouble(i)));
    }
    double noise = band.applyAsDouble(Collections.max(drawing.scattered()));
    // A band may run out of the picture; the points may not.
    OhmAxis axis = OhmAxis.halfUpTo(Math.max(1.15 * most, Math.min(1.6 * noise, 3 * most)));
    FrequencyPane pane = new FrequencyPane(frequency, top, bottom, -axis.topOhm(), axis.topOhm());
    band(sheet, "explained", pane, drawing.explained(), band);
    band(sheet, "noise", pane, drawing.scattered(), band);
    pane.grid(sheet, axis.stepOhm());
    for (int i = 0; i < drawing.measured().size(); i++) {
      sheet.dot("measured", pane.x(hz(i)), pane.y(left.applyAsDouble(i)), DOT);
    }
    return pane;
  }

  private void band(
      Sheet sheet,
      String style,
      FrequencyPane pane,
      List<Double> deviation,
      DoubleUnaryOperator band) {
    List<double[]> outline = new ArrayList<>();
    for (int i = 0; i < deviation.size(); i++) {
      outline.add(pane.at(hz(i), band.applyAsDouble(deviation.get(i))));
    }
    for (int i = deviation.size() - 1; i >= 0; i--) {
      outline.add(pane.at(hz(i), -band.applyAsDouble(deviation.get(i))));
    }
    sheet.area(style, outline);
  }

  private double hz(int point) {
    return drawing.measured().get(point).frequencyHz();
  }
}
