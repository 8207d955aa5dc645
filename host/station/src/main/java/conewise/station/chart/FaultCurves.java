package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.card.Figures;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * Curves that faults would show, over the one of a good box, as one SVG element: |Z| over
 * frequency, both logarithmic. Each curve has a hue, a pattern of its line and its name at a place
 * where it is by itself. The page needs the style {@code prediction.css}.
 */
public final class FaultCurves {
  /** So many curves can be told apart at once. */
  public static final int MOST = 5;

  /** How far a curve may leave a good one before it is cut, as a factor. */
  private static final double FARTHEST = 12;

  private static final double HEADROOM = 1.25;
  private static final double LEFT = 46;
  private static final double RIGHT_MARGIN = 14;
  private static final double TOP = 12;
  private static final double FOOT = 40;

  /** Half the height of a name's frame. */
  private static final double TAG = 10;

  /**
   * A curve.
   *
   * @param name a letter and a number, unlike that of any other
   * @param points above 0 Hz, at least two, at the same frequencies for all curves of a picture
   */
  public record Curve(String name, List<ImpedancePoint> points) {
    public Curve {
      points = List.copyOf(points);
    }
  }

  private final Curve good;
  private final List<Curve> faults;
  private final List<Curve> behind;
  private final FrequencyAxis frequency;
  private final OhmScale ohm;
  private final double width;
  private final double height;

  private FaultCurves(
      Curve good, List<Curve> faults, List<Curve> behind, double width, double height) {
    if (faults.size() > MOST) {
      throw new IllegalArgumentException(
          faults.size() + " curves are to be told apart in one picture; at most " + MOST + " are");
    }
    this.good = good;
    this.faults = List.copyOf(faults);
    this.behind = List.copyOf(behind);
    this.width = width;
    this.height = height;
    List<ImpedancePoint> points = good.points();
    frequency =
        FrequencyAxis.around(
            points.get(0).frequencyHz(), points.get(points.size() - 1).frequencyHz());
    ohm = scale();
  }

  /**
   * A picture over the whole page.
   *
   * @param faults told apart, at most {@link #MOST}
   * @param behind others, thin and grey
   * @param id unlike that of any other picture on the page
   */
  public static String wide(Curve good, List<Curve> faults, List<Curve> behind, String id) {
    return new FaultCurves(good, faults, behind, 760, 430).draw(id);
  }

  /** A picture of half that width. */
  public static String narrow(Curve good, List<Curve> faults, String id) {
    return new FaultCurves(good, faults, List.of(), 400, 300).draw(id);
  }

  private OhmScale scale() {
    List<Double> own = moduli(good);
    double most = own.stream().max(Double::compare).orElseThrow();
    double least = own.stream().min(Double::compare).orElseThrow();
    double high = most;
    double low = least;
    for (Curve curve : faults) {
      for (double modulus : moduli(curve)) {
        high = Math.max(high, Math.min(modulus, FARTHEST * most));
        low = Math.min(low, Math.max(modulus, least / FARTHEST));
      }
    }
    return new OhmScale(low / HEADROOM, high * HEADROOM);
  }

  private static List<Double> moduli(Curve curve) {
    return curve.points().stream().map(ImpedancePoint::modulusOhm).toList();
  }

  private String draw(String id) {
    String names = faults.stream().map(Curve::name).collect(Collectors.joining(", "));
    Sheet sheet =
        new Sheet(
            (int) width,
            (int) height,
            id,
            "Impedance of a good box and of " + names,
            "Modulus in ohm from "
                + Figures.plain(frequency.lowHz())
                + " to "
                + Figures.plain(frequency.highHz())
                + " Hz, of the box as planned and of the faults "
                + names
                + ".");
    grid(sheet);
    behind.forEach(curve -> line(sheet, "curve other", curve));
    line(sheet, "curve good", good);
    for (int i = 0; i < faults.size(); i++) {
      line(sheet, "curve fault-" + (i + 1), faults.get(i));
    }
    names(sheet);
    return sheet.end();
  }

  private void grid(Sheet sheet) {
    double bottom = height - FOOT;
    double right = width - RIGHT_MARGIN;
    frequency.minorTicksHz().forEach(hz -> sheet.line("minor", x(hz), TOP, x(hz), bottom));
    for (double hz : frequency.ticksHz()) {
      sheet.line("major", x(hz), TOP, x(hz), bottom);
      sheet.label(x(hz), bottom + 16, "middle", Figures.plain(hz));
    }
    for (double tick : ohm.ticksOhm()) {
      sheet.line("major", LEFT, y(tick), right, y(tick));
      sheet.label(LEFT - 6, y(tick) + 4, "end", Figures.plain(tick));
    }
    sheet.label((LEFT + right) / 2, height - 6, "middle", "frequency, Hz");
    sheet.upright((TOP + bottom) / 2, "|Z|, ohm");
  }

  /** What of a curve lies on the axis. */
  private void line(Sheet sheet, String style, Curve curve) {
    List<double[]> run = new ArrayList<>();
    for (ImpedancePoint point : curve.points()) {
      if (ohm.holds(point.modulusOhm())) {
        run.add(new double[] {x(point.frequencyHz()), y(point.modulusOhm())});
      } else {
        sheet.polyline(style, run);
        run.clear();
      }
    }
    sheet.polyline(style, run);
  }

  private void names(Sheet sheet) {
    List<Curve> all = new ArrayList<>(faults);
    all.add(good);
    NamePlaces places = new NamePlaces(all.stream().map(this::places).toList());
    for (int i = 0; i < all.size(); i++) {
      double[] place = places.next(i);
      Curve curve = all.get(i);
      String style = i == all.size() - 1 ? "name-good" : "name-" + (i + 1);
      double y = Math.max(TOP + TAG, Math.min(height - FOOT - TAG, place[1]));
      sheet.tag(style, place[0], y, curve.name() + beyond(curve));
    }
  }

  /** An arrow where no part of a curve lies on the axis. */
  private String beyond(Curve curve) {
    if (moduli(curve).stream().anyMatch(ohm::holds)) {
      return "";
    }
    return moduli(curve).get(0) < ohm.lowOhm() ? " \u2193" : " \u2191";
  }

  private List<double[]> places(Curve curve) {
    return curve.points().stream()
        .map(point -> new double[] {x(point.frequencyHz()), y(point.modulusOhm())})
        .toList();
  }

  private double x(double hz) {
    return LEFT + frequency.position(hz) * (width - RIGHT_MARGIN - LEFT);
  }

  private double y(double modulusOhm) {
    double bottom = height - FOOT;
    return bottom - ohm.position(modulusOhm) * (bottom - TOP);
  }
}
