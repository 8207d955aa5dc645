package conewise.station.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Draws the signs of a wiring. */
final class WiringPen {
  private static final double LETTER_RADIUS = 9.5;
  private static final double SIGN_RADIUS = 8;

  private final Sheet sheet;
  private final int leads;

  /** What is drawn above all casings, and what above that. */
  private final List<Runnable> cores = new ArrayList<>();

  private final List<Runnable> signs = new ArrayList<>();

  WiringPen(Sheet sheet, int leads) {
    this.sheet = sheet;
    this.leads = leads;
  }

  /** A lead through corners, each an x and a y: a dark casing, and its colour within. */
  void lead(int number, double... corners) {
    List<double[]> points = new ArrayList<>();
    for (int i = 0; i + 1 < corners.length; i += 2) {
      points.add(new double[] {corners[i], corners[i + 1]});
    }
    sheet.polyline("casing", points);
    cores.add(() -> sheet.polyline("lead " + style(number), points));
  }

  /** Draws what lies above the casings; nothing may be drawn after it. */
  void finish() {
    cores.forEach(Runnable::run);
    signs.forEach(Runnable::run);
  }

  private String style(int number) {
    return Lead.Colour.of(number, leads).name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A lead's letter, on it. */
  void letter(int number, double x, double y) {
    signs.add(
        () -> {
          sheet.dot("tag " + style(number), x, y, LETTER_RADIUS);
          sheet.styled("letter", x, y + 4.5, "middle", Lead.letter(number));
        });
  }

  /** A point where a lead branches. */
  void joint(double x, double y) {
    signs.add(() -> sheet.dot("joint", x, y, 4));
  }

  /** The end of a coil, or of the box. */
  void terminal(double x, double y, double radius, boolean plus) {
    signs.add(() -> sign(x, y, radius, plus));
  }

  private void sign(double x, double y, double radius, boolean plus) {
    sheet.dot(plus ? "plus" : "minus", x, y, radius);
    double arm = radius * 0.55;
    String stroke = plus ? "on-plus" : "on-minus";
    sheet.line(stroke, x - arm, y, x + arm, y);
    if (plus) {
      sheet.line(stroke, x, y - arm, x, y + arm);
    }
  }

  /** A coil between two places, its + first or not. */
  void coil(double left, double right, double y, boolean reversed) {
    double from = left + 2 * SIGN_RADIUS;
    double to = right - 2 * SIGN_RADIUS;
    if (reversed) {
      sheet.area("turned", corners(left - 3, y - 14, right + 3, y + 14));
    }
    int turns = 4;
    double step = (to - from) / turns;
    StringBuilder path = new StringBuilder(String.format(Locale.ROOT, "M%.1f,%.1f", from, y));
    for (int i = 0; i < turns; i++) {
      path.append(String.format(Locale.ROOT, "a%.2f,11 0 0 1 %.2f,0", step / 2, step));
    }
    sheet.path("winding", path.toString());
    terminal(left + SIGN_RADIUS, y, SIGN_RADIUS, !reversed);
    terminal(right - SIGN_RADIUS, y, SIGN_RADIUS, reversed);
  }

  /** A frame about a coil that is to be looked at. */
  void frame(double left, double top, double right, double bottom) {
    sheet.area("look", corners(left, top, right, bottom));
  }

  /** A resistance, a gap or a bridge, by its name. */
  void other(double left, double right, double y, String style) {
    if (style.equals("bridge")) {
      sheet.line("bridge", left, y, right, y);
    } else {
      sheet.area(style, corners(left, y - 9, right, y + 9));
    }
  }

  private static List<double[]> corners(double left, double top, double right, double bottom) {
    return List.of(
        new double[] {left, top},
        new double[] {right, top},
        new double[] {right, bottom},
        new double[] {left, bottom});
  }

  void name(double x, double y, String anchor, String text) {
    sheet.styled("part", x, y, anchor, text);
  }

  void note(double x, double y, String text) {
    sheet.label(x, y, "middle", text);
  }
}
