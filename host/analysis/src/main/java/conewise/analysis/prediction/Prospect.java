package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What a box with one of some faults would show: all of them come to one curve, so that no sweep
 * tells them from one another.
 *
 * @param faults at least one, the most frequent first
 * @param curve from 0 Hz on, as planned but for the fault; none where no current passes
 * @param timesGood by how much the curve is a good box's, where it is so at every frequency
 * @param telling how far it is told from a good box
 * @param unseen where it is never shown: each of the faults, and what would show it
 */
public record Prospect(
    List<Fault> faults,
    Outcome<ImpedanceCurve> curve,
    OptionalDouble timesGood,
    Telling telling,
    List<Unseen> unseen) {
  /** Curves that differ by less, relative, are one to any instrument. */
  private static final double SAME = 1e-4;

  /**
   * A fault that the terminals never show.
   *
   * @param fault which
   * @param tests what would show it, whole sentences, at least one
   */
  public record Unseen(Fault fault, List<String> tests) {
    public Unseen {
      tests = List.copyOf(tests);
    }
  }

  public Prospect {
    faults = List.copyOf(faults);
    unseen = List.copyOf(unseen);
    if (faults.isEmpty()) {
      throw new IllegalArgumentException("a prospect is of at least 1 fault; it had 0");
    }
  }

  /**
   * True where the curve is a good box's. Of faults that are shown all the same it says that they
   * have no curve of their own: they let parts lie anywhere.
   */
  public boolean isAsGood() {
    return timesGood.isPresent() && Math.abs(timesGood.getAsDouble() - 1) < SAME;
  }

  /** What is read off the curve. */
  public Outcome<CurveShape> shape() {
    return curve.map(CurveShape::of);
  }
}
