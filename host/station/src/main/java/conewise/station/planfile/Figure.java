package conewise.station.planfile;

import conewise.analysis.plan.Stated;
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

  private static final double MOST_TOLERANCE = 0.9;

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
    String unit = form.group("unit") == null ? "" : form.group("unit").strip();
    Optional<Double> value =
        measure.isPresent()
            ? measure.get().inBaseUnits(number, unit)
            : unit.isEmpty() ? Optional.of(number) : Optional.empty();
    OptionalDouble tolerance =
        form.group("tolerance") == null
            ? OptionalDouble.empty()
            : OptionalDouble.of(Double.parseDouble(form.group("tolerance")) / 100);
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

  /** What is allowed, for people. */
  static String allowed(Optional<Measure> measure, Fields.Range range) {
    return measure
        .map(
            each ->
                String.format(
                    Locale.ROOT,
                    "a number with its unit (%s), such as %s, from %s to %s in %s",
                    String.join(", ", each.labels()),
                    example(each),
                    Fields.plain(range.least()),
                    Fields.plain(range.most()),
                    each.baseLabel()))
        .orElseGet(range::described);
  }

  private static String example(Measure measure) {
    return measure == Measure.FREQUENCY ? "32 Hz +- 10 %" : "12 " + measure.labels().get(0);
  }
}
