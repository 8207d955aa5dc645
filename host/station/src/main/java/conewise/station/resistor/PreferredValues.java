package conewise.station.resistor;

import java.util.Locale;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;

/**
 * The values in which resistors are made (IEC 60063, from memory): E6 for 20 %, E12 for 10 %, E24
 * for 5 %, E48 for 2 %, E96 for 1 %, E192 for closer ones. Those of E24 are made in every tolerance
 * (common practice).
 */
public final class PreferredValues {
  /** The values of E24, times ten; those of E12 and E6 are every second and every fourth. */
  private static final int[] E24 = {
    10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91
  };

  /** The one value of E192 that is not the rounded root: 10^(185/192) would be 9.19. */
  private static final int ODD_INDEX = 185;

  private static final double ODD_VALUE = 9.20;

  /** Values that agree to this are the same: a value is typed with three or four digits. */
  private static final double SAME = 1e-6;

  private PreferredValues() {}

  /**
   * Why no resistor of this value is sold with this tolerance.
   *
   * @param ohm the value, positive and finite
   * @param toleranceFraction its tolerance over its value, 0 to 1
   * @return one sentence with the nearest values; nothing when the value is a preferred one
   */
  public static Optional<String> doubt(double ohm, double toleranceFraction) {
    int series = series(toleranceFraction);
    NavigableSet<Double> made = new TreeSet<>(around(ohm, Math.min(series, 24)));
    made.addAll(around(ohm, 24));
    made.addAll(around(ohm, series));
    Double below = made.floor(ohm * (1 + SAME));
    Double above = made.ceiling(ohm * (1 - SAME));
    if (Math.abs(below / ohm - 1) <= SAME || Math.abs(above / ohm - 1) <= SAME) {
      return Optional.empty();
    }
    return Optional.of(
        String.format(
            Locale.ROOT,
            "%s ohm is no preferred value of E%d; the nearest are %s and %s ohm. If it was"
                + " measured, its tolerance is what the meter leaves open; else read it again.",
            ResistorMark.plain(ohm),
            series,
            ResistorMark.plain(below),
            ResistorMark.plain(above)));
  }

  /** How many values the series of a tolerance has in a decade. */
  static int series(double toleranceFraction) {
    double percent = 100 * toleranceFraction + SAME;
    if (percent >= 20) {
      return 6;
    }
    if (percent >= 10) {
      return 12;
    }
    if (percent >= 5) {
      return 24;
    }
    if (percent >= 2) {
      return 48;
    }
    return percent >= 1 ? 96 : 192;
  }

  /**
   * A value of a series, from 1 to below 10.
   *
   * @param series how many values a decade has: 6, 12, 24, 48, 96 or 192
   * @param index from 0 to {@code series} - 1
   */
  static double value(int series, int index) {
    if (series <= 24) {
      return E24[index * (24 / series)] / 10.0;
    }
    if (index * (192 / series) == ODD_INDEX) {
      return ODD_VALUE;
    }
    return Math.round(100 * Math.pow(10, (double) index / series)) / 100.0;
  }

  private static NavigableSet<Double> around(double ohm, int series) {
    NavigableSet<Double> values = new TreeSet<>();
    int decade = (int) Math.floor(Math.log10(ohm));
    for (int each = decade - 1; each <= decade + 1; each++) {
      for (int index = 0; index < series; index++) {
        values.add(value(series, index) * Math.pow(10, each));
      }
    }
    return values;
  }
}
