package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Reactance against resistance on equal scales, where a resonance is a circle: one SVG element.
 * Measured points are dots, the fit is a line, a few frequencies are marked by diamonds.
 */
public final class NyquistChart {
  private static final int WIDTH = 760;
  private static final double LEFT = 62;
  private static final double RIGHT = 742;
  private static final double TOP = 34;
  private static final double MOST_HEIGHT = 600;

  /** Room at the right for a label beside the curve. */
  private static final double LABEL_ROOM = 64;

  private static final double DOT = 2.6;

  /** Marks nearer to each other than this are left out. */
  private static final double APART = 14;

  /** So wide and high is a label. */
  private static final double LABEL_WIDTH = 66;

  private static final double LABEL_HEIGHT = 17;

  private static final double LABEL_DISTANCE = 16;

  private final FitDrawing drawing;
  private final double stepOhm;
  private final double mostOhm;
  private final double highOhm;
  private final double lowOhm;
  private final double perOhm;

  /** A frequency that is wanted as a mark. */
  private record Wanted(int point, double hz) {}

  private NyquistChart(FitDrawing drawing) {
    this.drawing = drawing;
    double most = all().mapToDouble(ImpedancePoint::resistanceOhm).max().orElseThrow();
    double high = all().mapToDouble(ImpedancePoint::reactanceOhm).max().orElseThrow();
    double low = all().mapToDouble(ImpedancePoint::reactanceOhm).min().orElseThrow();
    mostOhm = Math.max(most, Math.max(high, -low) / 4);
    highOhm = Math.max(1.1 * high, 0.1 * mostOhm);
    lowOhm = Math.min(1.1 * low, -0.1 * mostOhm);
    stepOhm = OhmAxis.upTo(mostOhm).stepOhm();
    perOhm = Math.min((RIGHT - LEFT - LABEL_ROOM) / mostOhm, MOST_HEIGHT / (highOhm - lowOhm));
  }

  private Stream<ImpedancePoint> all() {
    return Stream.concat(drawing.measured().stream(), drawing.fitted().stream());
  }

  /**
   * Draws.
   *
   * @param id unlike that of any other picture on the page
   */
  public static String draw(FitDrawing drawing, String id) {
    return new NyquistChart(drawing).draw(id);
  }

  private double x(double ohm) {
    return LEFT + ohm * perOhm;
  }

  private double y(double ohm) {
    return TOP + (highOhm - ohm) * perOhm;
  }

  private double[] at(ImpedancePoint point) {
    return new double[] {x(point.resistanceOhm()), y(point.reactanceOhm())};
  }

  private String draw(String id) {
    double bottom = y(lowOhm);
    Sheet sheet =
        new Sheet(
            WIDTH,
            (int) Math.ceil(bottom + 42),
            id,
            "Reactance against resistance",
            "On equal scales, in ohm: dots measured, line fitted, diamonds at some frequencies.");
    grid(sheet, bottom);
    for (ImpedancePoint point : drawing.measured()) {
      double[] at = at(point);
      sheet.dot("measured", at[0], at[1], DOT);
    }
    sheet.polyline("fitted", drawing.fitted().stream().map(this::at).toList());
    marks(sheet);
    sheet.label((LEFT + RIGHT) / 2, bottom + 34, "middle", "resistance, ohm");
    sheet.upright((TOP + bottom) / 2, "reactance, ohm");
    sheet.measuredAndFitted(LEFT + 8, 16);
    sheet.diamond(LEFT + 190, 12, 5);
    sheet.label(LEFT + 202, 16, "start", "fitted, at the frequency beside it");
    return sheet.end();
  }

  private void grid(Sheet sheet, double bottom) {
    for (int i = 0; x(i * stepOhm) <= RIGHT; i++) {
      double x = x(i * stepOhm);
      sheet.line("major", x, TOP, x, bottom);
      sheet.label(x, bottom + 16, "middle", Figures.plain(i * stepOhm));
    }
    for (long i = (long) Math.ceil(lowOhm / stepOhm); i * stepOhm <= highOhm; i++) {
      double y = y(i * stepOhm);
      sheet.line(i == 0 ? "zero" : "major", LEFT, y, RIGHT, y);
      sheet.label(LEFT - 6, y + 4, "end", Figures.plain(i * stepOhm));
    }
  }

  /** Peaks, dips and the ends first, then round frequencies. */
  private List<Wanted> wanted() {
    List<ImpedancePoint> points = drawing.fitted();
    List<Wanted> wanted = new ArrayList<>();
    for (int i = 1; i < points.size() - 1; i++) {
      double before = points.get(i - 1).modulusOhm();
      double here = points.get(i).modulusOhm();
      double after = points.get(i + 1).modulusOhm();
      if ((here > before && here > after) || (here < before && here < after)) {
        wanted.add(new Wanted(i, points.get(i).frequencyHz()));
      }
    }
    wanted.add(new Wanted(0, points.get(0).frequencyHz()));
    wanted.add(new Wanted(points.size() - 1, points.get(points.size() - 1).frequencyHz()));
    FrequencyAxis axis = drawing.frequencyAxis();
    axis.ticksHz().forEach(hz -> wanted.add(new Wanted(nearest(points, hz), hz)));
    axis.minorTicksHz().forEach(hz -> wanted.add(new Wanted(nearest(points, hz), hz)));
    return wanted;
  }

  /** Those that have room. */
  private void marks(Sheet sheet) {
    List<double[]> taken = new ArrayList<>();
    for (Wanted each : wanted()) {
      double[] at = at(drawing.fitted().get(each.point()));
      double[] place = labelPlace(each.point());
      if (taken.stream().allMatch(other -> isApart(other, at, place))) {
        taken.add(new double[] {at[0], at[1], place[0], place[1]});
        sheet.diamond(at[0], at[1], 5);
        String anchor = place[0] < at[0] - 6 ? "end" : place[0] > at[0] + 6 ? "start" : "middle";
        sheet.label(place[0], place[1] + 4, anchor, Figures.plain(rounded(each.hz())) + " Hz");
      }
    }
  }

  private static boolean isApart(double[] other, double[] at, double[] place) {
    boolean marks = Math.hypot(other[0] - at[0], other[1] - at[1]) >= APART;
    boolean labels =
        Math.abs(other[2] - place[0]) >= LABEL_WIDTH
            || Math.abs(other[3] - place[1]) >= LABEL_HEIGHT;
    return marks && labels;
  }

  /**
   * Beside the curve, to the left of the way it runs, which is outside of its circles; inside where
   * there is no room before the axis.
   */
  private double[] labelPlace(int i) {
    List<ImpedancePoint> points = drawing.fitted();
    double[] from = at(points.get(Math.max(0, i - 1)));
    double[] to = at(points.get(Math.min(points.size() - 1, i + 1)));
    double length = Math.max(1e-9, Math.hypot(to[0] - from[0], to[1] - from[1]));
    double right = (to[1] - from[1]) / length * LABEL_DISTANCE;
    double down = -(to[0] - from[0]) / length * LABEL_DISTANCE;
    double[] at = at(points.get(i));
    double side = right < 0 && at[0] + right - LABEL_WIDTH < LEFT ? -1 : 1;
    return new double[] {at[0] + side * right, at[1] + side * down};
  }

  private static int nearest(List<ImpedancePoint> points, double hz) {
    int best = 0;
    for (int i = 1; i < points.size(); i++) {
      double here = Math.abs(Math.log(points.get(i).frequencyHz() / hz));
      if (here < Math.abs(Math.log(points.get(best).frequencyHz() / hz))) {
        best = i;
      }
    }
    return best;
  }

  /** Three significant digits. */
  private static double rounded(double hz) {
    double unit = Math.pow(10, Math.floor(Math.log10(hz)) - 2);
    return Math.rint(hz / unit) * unit;
  }
}
