package conewise.station.planfile;

import conewise.analysis.outcome.Outcome;
import conewise.station.files.Quoted;
import conewise.station.planfile.Fields.Range;
import java.util.Optional;

/** A figure that is typed on a command line or a page: a number with its unit, as in a plan. */
public final class TypedFigure {
  /** Parts of a degree that are kept. */
  private static final double FINEST = 1e9;

  private TypedFigure() {}

  /**
   * Reads one.
   *
   * @param text what was typed
   * @param least the smallest allowed, in the unit without prefix
   * @param most the largest allowed, in the same
   * @return its value in the unit without prefix ({@link Measure#baseLabel}), or what is wrong, to
   *     go on after "so-and-so is", without a full stop
   */
  public static Outcome<Double> read(String text, Measure measure, double least, double most) {
    Range range = new Range(least, most);
    Optional<Figure> figure =
        Figure.parse(text, Optional.of(measure)).filter(each -> each.tolerance().isEmpty());
    Optional<Double> value = figure.map(each -> rounded(each.value(), measure));
    if (value.isEmpty()) {
      return Outcome.none(
          Quoted.of(text) + "; allowed is " + Figure.allowed(Optional.of(measure), range));
    }
    return range.holds(value.get())
        ? Outcome.found(value.get())
        : Outcome.none(
            Quoted.of(text)
                + ", out of range; allowed is "
                + Figure.allowedRange(Optional.of(measure), range));
  }

  /** What the zero of another scale leaves of rounding is taken away: 122 F are 50 C. */
  private static double rounded(double value, Measure measure) {
    return measure == Measure.TEMPERATURE ? Math.rint(value * FINEST) / FINEST : value;
  }
}
