package conewise.station.prediction;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.BoxPrediction;
import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleConsumer;

/**
 * A prediction with all that its readers share.
 *
 * @param prediction what was predicted
 * @param boxes how many boxes were drawn for each set of faults
 * @param seed of the drawing
 * @param prospects by group, each with its name
 * @param slips what an ohmmeter reads
 */
public record PredictionAnswer(
    BoxPrediction prediction,
    int boxes,
    long seed,
    List<NamedProspect> prospects,
    List<SlipRow> slips) {

  /** The sentence that belongs beside every table of resistances. */
  public static final String POLARITY_AND_DC =
      "A DC resistance is the same whichever way round a driver or a coil is: polarity never shows"
          + " in it.";

  public PredictionAnswer {
    prospects = List.copyOf(prospects);
    slips = List.copyOf(slips);
  }

  /** Predicts a plan; a second or a few. */
  public static PredictionAnswer of(
      PlannedBox plan, Rates rates, int boxes, long seed, DoubleConsumer progress) {
    BoxPrediction prediction = BoxPrediction.of(plan, rates, boxes, seed, progress);
    List<NamedProspect> named = new ArrayList<>();
    for (FaultGroup group : FaultGroup.values()) {
      int number = 1;
      for (Prospect prospect : prediction.prospects()) {
        if (FaultGroup.of(prospect.faults().get(0).kind()) == group) {
          named.add(new NamedProspect(group.letter() + number++, group, prospect));
        }
      }
    }
    return new PredictionAnswer(prediction, boxes, seed, named, SlipRow.of(prediction.slips()));
  }

  /** Those of a group. */
  public List<NamedProspect> of(FaultGroup group) {
    return prospects.stream().filter(each -> each.group() == group).toList();
  }

  /** Those of a kind of telling. */
  public List<NamedProspect> told(Telling.Kind kind) {
    return prospects.stream().filter(each -> each.prospect().telling().kind() == kind).toList();
  }

  /** What the good box's curve shows, without a full stop. */
  public String good() {
    return CurveWords.of(prediction.goodShape());
  }

  /** What a prospect's curve shows, without a full stop. */
  public String shows(NamedProspect each) {
    return CurveWords.of(each.prospect(), prediction.goodShape());
  }

  /** The resistance that the plan allows, for people. */
  public String allowed() {
    return CurveWords.ohm(prediction.allowedOhm());
  }

  /** How it was found out what is told, a full sentence. */
  public String method() {
    return "For each set of faults "
        + boxes
        + " boxes were drawn (seed "
        + seed
        + ") with tolerances, size of the fault and a quick sweep's noise, and each was compared"
        + " with the good box that explains its curve best; told is one that is at least 19 times"
        + " as probable as that. "
        + "\""
        + Telling.Kind.SURELY.words()
        + "\" means all of them, with two standard deviations to spare.";
  }
}
