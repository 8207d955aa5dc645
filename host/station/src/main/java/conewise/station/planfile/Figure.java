package conewise.station.planfile;

import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Stated;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A figure as a plan has it: a number, its unit, and how far built ones may be from it: {@code 32
 * Hz +- 10 %}.
 *
 * @param value in the unit without prefix
 * @param tolerance relative, that nearly all keep; empty where none is written
 */
record Figure(double value, OptionalDouble tolerance) {
  private static final Pattern FORM =
      Pattern.compile(
          "\\s*(?<number>[+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)"
              + "\\s*(?<unit>[A-Za-z][A-Za-z0-9/ ]*?)?"
              + "\\s*(?:(?:\\+-|\\+/-|\u00b1)\\s*(?<tolerance>[0-9]+\\.?[0-9]*)\\s*%)?\\s*");

  /** More says nothing any longer. */
  private static final double MOST_TOLERANCE = 3;

  /** Nearly all built ones keep a tolerance: it is taken for two standard deviations. */
  private static final double DEVIATIONS = 2;

  /**
   * Reads one.
   *
   * @param measure what it measures; empty for a pure number
   */
  static Optional<Figure> parse(String text, Optional<Measure> measure) {
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      return Optional.empty();
    }
    double number = Double.parseDouble(form.group("number"));
    if (Double.isInfinite(number)) {
      return Optional.empty();
    }
    String unit = form.group("unit") == null ? "" : form.group("unit").strip();
    Optional<Double> value =
        measure.isPresent()
            ? measure.get().inBaseUnits(number, unit)
            : unit.isEmpty() ? Optional.of(number) : Optional.empty();
    OptionalDouble tolerance =
        form.group("tolerance") == null
            ? OptionalDouble.empty()
            : OptionalDouble.of(fraction(form.group("tolerance")));
    boolean wild =
        tolerance.isPresent()
            && !(tolerance.getAsDouble() > 0 && tolerance.getAsDouble() <= MOST_TOLERANCE);
    return wild ? Optional.empty() : value.map(each -> new Figure(each, tolerance));
  }

  /** The figure with the spread that its tolerance says, or a usual one. */
  Stated stated(double usualSpread) {
    return new Stated(
        value, tolerance.isPresent() ? tolerance.getAsDouble() / DEVIATIONS : usualSpread);
  }

  /** The interval that its tolerance makes of it; there must be one. */
  Interval limits() {
    double most = value * tolerance.orElseThrow();
    return new Interval(value - most, value + most);
  }

  /** A percentage as a fraction, exactly as its decimal digits say. */
  static double fraction(String percent) {
    return new BigDecimal(percent).movePointLeft(2).doubleValue();
  }

  /** A fraction as a percentage, so that it is read again as the very same number. */
  static String percent(double fraction) {
    return BigDecimal.valueOf(fraction).movePointRight(2).stripTrailingZeros().toPlainString()
        + " %";
  }

  /** A planned figure as it stands in a file; the usual spread goes without saying. */
  static String written(Stated stated, Optional<Measure> measure, double usualSpread) {
    String value =
        measure.map(each -> each.written(stated.value())).orElse(Fields.plain(stated.value()));
    return stated.spread() == usualSpread
        ? value
        : value + " +- " + percent(stated.spread() * DEVIATIONS);
  }

  /** What form is allowed, for people. */
  static String allowed(Optional<Measure> measure, Fields.Range range) {
    return measure
        .map(
            each ->
                "a number with its unit ("
                    + String.join(", ", each.labels())
                    + "), such as "
                    + example(each)
                    + ", "
                    + allowedRange(measure, range))
        .orElseGet(range::described);
  }

  /** What sizes are allowed, for people. */
  static String allowedRange(Optional<Measure> measure, Fields.Range range) {
    return String.format(
            Locale.ROOT,
            "%s to %s %s",
            Fields.plain(range.least()),
            Fields.plain(range.most()),
            measure.map(Measure::baseLabel).orElse(""))
        .strip();
  }

  private static String example(Measure measure) {
    return measure == Measure.FREQUENCY ? "32 Hz +- 10 %" : "12 " + measure.labels().get(0);
  }
}
