package conewise.station.lab;

import conewise.station.card.Figures;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Marks one answer. */
final class Marker {
  /** How near a wrong number must be to where a mistake leads for the mistake to be named. */
  private static final double NEAR = 0.03;

  private static final double TURN = 2 * Math.PI;

  private static final List<Trap> USUAL =
      List.of(
          new Trap(TURN, "it is 2 pi times too large: rad/s for Hz"),
          new Trap(1 / TURN, "it is 2 pi times too small: Hz for rad/s"),
          new Trap(1e3, "it is a thousand times too large: look at the unit"),
          new Trap(1e-3, "it is a thousand times too small: look at the unit"),
          new Trap(2, "it is twice what it should be"),
          new Trap(0.5, "it is half of what it should be"),
          new Trap(-1, "its sign is wrong"));

  private Marker() {}

  static Mark mark(String id, Key key, Answer answer) {
    if (answer instanceof Answer.None) {
      return new Mark(id, Mark.Grade.NOT_ANSWERED, "nothing is written", OptionalDouble.empty());
    }
    if (key instanceof Key.Figure number) {
      return number(id, number, answer);
    }
    boolean undetermined = answer instanceof Answer.Undetermined;
    if (key instanceof Key.Undetermined open) {
      return undetermined
          ? plain(id, Mark.Grade.RIGHT, open.because())
          : plain(id, Mark.Grade.WRONG, "These data cannot tell. " + open.because());
    }
    Key.Word word = (Key.Word) key;
    if (undetermined) {
      return plain(id, Mark.Grade.WRONG, "These data do tell. " + word.because());
    }
    boolean right = answer instanceof Answer.Word said && said.word().equals(word.right());
    return plain(id, right ? Mark.Grade.RIGHT : Mark.Grade.WRONG, word.because());
  }

  private static Mark plain(String id, Mark.Grade grade, String because) {
    return new Mark(id, grade, because, OptionalDouble.empty());
  }

  private static Mark number(String id, Key.Figure key, Answer answer) {
    if (!(answer instanceof Answer.Figure said)) {
      return plain(id, Mark.Grade.WRONG, "These data do tell it.");
    }
    double off = said.value() / key.truth() - 1;
    if (Math.abs(off) <= key.tolerance()) {
      return new Mark(
          id,
          Mark.Grade.RIGHT,
          "within " + AnswerKey.percent(key.tolerance()) + " %",
          OptionalDouble.empty());
    }
    return new Mark(id, Mark.Grade.WRONG, wrong(key, said.value(), off), OptionalDouble.of(off));
  }

  private static String wrong(Key.Figure key, double value, double off) {
    double ratio = value / key.truth();
    String size =
        ratio > 3 || ratio < 1.0 / 3
            ? Figures.plain(ratio) + " times the right value"
            : Figures.plain(Math.round(1000 * Math.abs(off)) / 10.0)
                + " % too "
                + (off > 0 ? "high" : "low");
    return size
        + ", "
        + AnswerKey.percent(key.tolerance())
        + " % is allowed"
        + nearest(key, value).map(trap -> "; " + trap.words()).orElse("")
        + ".";
  }

  /** The nearest of the question's own traps, else of the usual ones. */
  private static Optional<Trap> nearest(Key.Figure key, double value) {
    Optional<Trap> own = nearest(key.traps(), value);
    return own.isPresent() ? own : nearest(USUAL, value / key.truth());
  }

  private static Optional<Trap> nearest(List<Trap> traps, double value) {
    return traps.stream()
        .filter(trap -> away(trap, value) < NEAR)
        .min(Comparator.comparingDouble(trap -> away(trap, value)));
  }

  private static double away(Trap trap, double value) {
    return Math.abs(value / trap.value() - 1);
  }
}
