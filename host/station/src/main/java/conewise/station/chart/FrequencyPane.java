package conewise.station.chart;

import conewise.station.card.Figures;

/**
 * A rectangle over a logarithmic frequency axis, its values on a linear scale.
 *
 * @param frequency its axis
 * @param top upper edge
 * @param bottom lower edge
 * @param low value at the lower edge
 * @param high value at the upper edge
 */
record FrequencyPane(FrequencyAxis frequency, double top, double bottom, double low, double high) {
  static final double LEFT = 62;
  static final double RIGHT = 742;

  double x(double hz) {
    return LEFT + frequency.position(hz) * (RIGHT - LEFT);
  }

  /** Values outside are held at the edge. */
  double y(double value) {
    double part = (value - low) / (high - low);
    return bottom - Math.max(0, Math.min(1, part)) * (bottom - top);
  }

  double[] at(double hz, double value) {
    return new double[] {x(hz), y(value)};
  }

  /** Lines of frequency, and of values so far apart. */
  void grid(Sheet sheet, double step) {
    frequency.minorTicksHz().forEach(hz -> sheet.line("minor", x(hz), top, x(hz), bottom));
    frequency.ticksHz().forEach(hz -> sheet.line("major", x(hz), top, x(hz), bottom));
    for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; i++) {
      double value = i * step;
      sheet.line(i == 0 && low < 0 ? "zero" : "major", LEFT, y(value), RIGHT, y(value));
      sheet.label(LEFT - 6, y(value) + 4, "end", Figures.plain(value));
    }
  }

  /** The numbers and the name of the frequency axis, below. */
  void frequencies(Sheet sheet) {
    frequency.ticksHz().forEach(hz -> sheet.label(x(hz), bottom + 16, "middle", Figures.plain(hz)));
    sheet.label((LEFT + RIGHT) / 2, bottom + 34, "middle", "frequency, Hz");
  }
}
