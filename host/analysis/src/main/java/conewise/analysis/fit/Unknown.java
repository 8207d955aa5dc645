package conewise.analysis.fit;

import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.List;

/**
 * One thing that a fit may move: quantities that move together, each by the same factor (or, for an
 * exponent, a coupling or a creep, by the same step), from what the model states. Its coordinate is
 * 0 there; elsewhere it is the logarithm of the factor, or the step.
 *
 * @param name for people
 * @param moves the quantities, at least one, all logarithmic or none
 * @param centre where the coordinate is expected: 0, but for a box that is known to be off its
 *     model's statement
 * @param spread what is known beforehand: the standard deviation of the coordinate about its
 *     centre; infinite where nothing is
 * @param low the least coordinate
 * @param high the greatest coordinate
 * @param inherent true where the spread is how such things are made (drivers of one batch are
 *     alike) rather than a plan's figure: it then counts with what the sweeps tell
 */
public record Unknown(
    String name,
    List<Quantity> moves,
    double centre,
    double spread,
    double low,
    double high,
    boolean inherent) {

  private static final double WIDEST_FACTOR = 20;
  private static final double EXPONENT_SPREAD = 0.15;
  private static final double EXPONENT_LOW = 0.35;
  private static final double EXPONENT_HIGH = 1.0001;

  public Unknown {
    moves = List.copyOf(moves);
    if (moves.isEmpty()) {
      throw new IllegalArgumentException(name + " moves at least 1 quantity; it had 0");
    }
    boolean logarithmic = moves.get(0).kind().isLogarithmic();
    if (moves.stream().anyMatch(each -> each.kind().isLogarithmic() != logarithmic)) {
      throw new IllegalArgumentException(
          name + " moves quantities by a factor and by a step at once; part them");
    }
    if (!(spread > 0)) {
      throw new IllegalArgumentException(
          "the spread of " + name + " is " + spread + "; it must be more than 0");
    }
    if (!(low < Math.min(0, centre) && high > Math.max(0, centre))) {
      throw new IllegalArgumentException(
          name
              + " may run from "
              + low
              + " to "
              + high
              + "; 0 and "
              + centre
              + " must lie between");
    }
  }

  /** One of which nothing is known but that it lies within a factor of 20 of what is stated. */
  public static Unknown free(Quantity... moves) {
    double most = Math.log(WIDEST_FACTOR);
    return new Unknown(
        nameOf(moves), List.of(moves), 0, Double.POSITIVE_INFINITY, -most, most, false);
  }

  /**
   * One that is planned, with its tolerance.
   *
   * @param tolerance the relative standard deviation, e.g. 0.1
   */
  public static Unknown planned(double tolerance, Quantity... moves) {
    Unknown free = free(moves);
    return new Unknown(free.name, free.moves, 0, tolerance, free.low, free.high, false);
  }

  /**
   * The exponent of a lossy inductance, which lies from 0.35 to 1.
   *
   * @param stated what the model has
   */
  public static Unknown exponent(double stated, Quantity... moves) {
    return new Unknown(
        nameOf(moves),
        List.of(moves),
        0,
        EXPONENT_SPREAD,
        EXPONENT_LOW - stated,
        EXPONENT_HIGH - stated,
        true);
  }

  /** The same with another name. */
  public Unknown named(String other) {
    return new Unknown(other, moves, centre, spread, low, high, inherent);
  }

  /** The same as a fact of how such things are made. */
  public Unknown asInherent() {
    return new Unknown(name, moves, centre, spread, low, high, true);
  }

  /** The same where the coordinate is expected about another centre. */
  public Unknown about(double otherCentre) {
    return new Unknown(name, moves, otherCentre, spread, low, high, inherent);
  }

  /** The same with another spread. */
  public Unknown within(double otherSpread) {
    return new Unknown(name, moves, centre, otherSpread, low, high, inherent);
  }

  /** The same with limits of its own: the coordinate may run so far. */
  public Unknown between(double lowest, double highest) {
    return new Unknown(name, moves, centre, spread, lowest, highest, inherent);
  }

  private static String nameOf(Quantity... moves) {
    if (moves.length == 0) {
      return "an unknown";
    }
    Kind kind = moves[0].kind();
    return kind.words()
        + " of "
        + String.join(
            " and ", java.util.Arrays.stream(moves).map(Quantity::part).distinct().toList());
  }

  /** The value of a quantity whose stated value is moved by a coordinate. */
  static double moved(Quantity quantity, double stated, double coordinate) {
    return quantity.kind().isLogarithmic() ? stated * Math.exp(coordinate) : stated + coordinate;
  }
}
