package conewise.station.prediction;

import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.prediction.CurveShape;
import conewise.analysis.prediction.CurveShape.Place;
import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import conewise.station.driver.FigureText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a curve shows, in words and figures of three digits. */
public final class CurveWords {
  /** Relative: two readings of a meter are one. */
  private static final double SAME_OHM = 1e-3;

  private static final double SHORT_OHM = 1e-3;
  private static final int DIGITS = 3;

  private static final List<String> NUMBERS =
      List.of("no peak", "one peak", "two peaks", "three peaks", "four peaks");

  private CurveWords() {}

  /** Of the box as planned; without a full stop. */
  static String of(CurveShape shape) {
    return features(shape) + "; " + ohm(shape.dcOhm()) + " DC";
  }

  /** Of faults, beside the box as planned. */
  static String of(Prospect prospect, CurveShape good) {
    if (prospect.shape() instanceof NoResult<CurveShape> none) {
      return none.because() + ": no curve, and a meter reads open";
    }
    CurveShape shape = ((Found<CurveShape>) prospect.shape()).value();
    if (prospect.isAsGood()) {
      return prospect.telling().kind() == Telling.Kind.NEVER
          ? "same as good"
          : "no curve of its own: parts lie anywhere, farther off the plan than tolerances allow";
    }
    if (shape.peaks().isEmpty() && shape.lowest().modulusOhm() < SHORT_OHM) {
      return "a short: next to no impedance at any frequency";
    }
    boolean sameDc = Math.abs(shape.dcOhm() / good.dcOhm() - 1) < SAME_OHM;
    double times = prospect.timesGood().orElse(0);
    String level = times > 0 ? "a good box's curve times " + three(times) + ": " : "";
    return level + of(shape) + (sameDc ? ", as good" : "");
  }

  private static String features(CurveShape shape) {
    List<String> parts = new ArrayList<>();
    int peaks = shape.peaks().size();
    if (peaks == 0) {
      parts.add(NUMBERS.get(0));
    } else {
      List<String> places = shape.peaks().stream().map(CurveWords::place).toList();
      String many = peaks < NUMBERS.size() ? NUMBERS.get(peaks) : peaks + " peaks";
      parts.add(many + ", " + FigureText.listed(places));
    }
    List<String> dips = dipsBetween(shape).stream().map(CurveWords::place).toList();
    if (!dips.isEmpty()) {
      parts.add((dips.size() == 1 ? "dip " : "dips ") + FigureText.listed(dips));
    }
    parts.add("lowest " + place(shape.lowest()));
    return String.join("; ", parts);
  }

  /** The dips between the first and the last peak. */
  private static List<Place> dipsBetween(CurveShape shape) {
    if (shape.peaks().size() < 2) {
      return List.of();
    }
    double first = shape.peaks().get(0).frequencyHz();
    double last = shape.peaks().get(shape.peaks().size() - 1).frequencyHz();
    return shape.dips().stream()
        .filter(dip -> dip.frequencyHz() > first && dip.frequencyHz() < last)
        .toList();
  }

  private static String place(Place place) {
    return ohm(place.modulusOhm()) + " at " + hertz(place.frequencyHz());
  }

  /** "3.65 ohm". */
  public static String ohm(double ohm) {
    return Double.isInfinite(ohm) ? "open" : three(ohm) + " ohm";
  }

  private static String hertz(double hz) {
    return String.format(Locale.ROOT, hz < 100 ? "%.1f Hz" : "%.0f Hz", hz);
  }

  /** A range in ohm; an end may be open. */
  static String ohm(Interval range) {
    if (Double.isInfinite(range.low())) {
      return "at most " + ohm(range.high());
    }
    return Double.isInfinite(range.high())
        ? "at least " + ohm(range.low())
        : three(range.low()) + " to " + ohm(range.high());
  }

  /** Three significant digits; what no meter tells from 0 is 0. */
  static String three(double value) {
    if (value < SHORT_OHM) {
      return "0";
    }
    BigDecimal rounded =
        new BigDecimal(value).round(new MathContext(DIGITS, RoundingMode.HALF_EVEN));
    int decimals = Math.max(0, DIGITS - rounded.precision() + rounded.scale());
    return rounded.setScale(decimals, RoundingMode.UNNECESSARY).toPlainString();
  }

  /** How many of the drawn boxes were told; blank where none had to be drawn. */
  public static String counts(Telling telling) {
    if (telling.drawn() == 0) {
      return "";
    }
    String nearest =
        telling.told() < telling.drawn()
            ? ""
            : String.format(
                Locale.ROOT,
                telling.kind() == Telling.Kind.SURELY
                    ? ", the nearest by %.1f sigma"
                    : ", the nearest barely, by %.1f sigma",
                telling.nearestSigmas());
    return telling.told() + " of " + telling.drawn() + " drawn boxes told" + nearest;
  }

  /** How far faults are told, with the figures that say so. */
  static String of(Telling telling) {
    String counts = counts(telling);
    return telling.kind().words() + (counts.isEmpty() ? "" : ": " + counts);
  }
}
