package conewise.station.prediction;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.prediction.CurveShape;
import conewise.analysis.prediction.Prospect;

/**
 * What faults would show, with a name for table and pictures.
 *
 * @param name the group's letter and a number, e.g. P1
 * @param group of the most frequent fault
 * @param prospect what would be shown
 */
public record NamedProspect(String name, FaultGroup group, Prospect prospect) {

  /** The faults in words, without a full stop. */
  public String faults() {
    return FaultWords.of(prospect.faults());
  }

  /**
   * True where there is a curve to draw: not of faults that are as good, and not of those that let
   * parts lie anywhere.
   */
  public boolean hasOwnCurve() {
    return prospect.shape() instanceof Found<CurveShape> && !prospect.isAsGood();
  }
}
