package conewise.station.tone;

import conewise.analysis.diagnosis.TestTones;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.BoxFigures.SpaceFigure;
import conewise.analysis.parameter.BoxMeasurement;
import conewise.analysis.parameter.FittedBox;
import conewise.analysis.plan.PlannedBox;
import java.util.Locale;

/**
 * A frequency to play, and why it.
 *
 * @param frequencyHz the frequency
 * @param because a whole sentence
 */
public record ChosenTone(double frequencyHz, String because) {

  /**
   * The fitted tuning, for the wind at a vent.
   *
   * @param plan of the box
   * @param curve measured of it
   * @param vent the name of one of the plan's vents
   * @return none where the curve does not tell the tuning, with what to do instead
   */
  public static Outcome<ChosenTone> atTuning(PlannedBox plan, ImpedanceCurve curve, String vent) {
    String space =
        plan.vents().stream()
            .filter(each -> each.name().equals(vent))
            .map(PlannedBox.PlannedVent::behind)
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("the plan has no vent " + vent));
    double plannedHz = TestTones.of(plan.model()).portHz(vent);
    String instead = instead(plannedHz);
    Outcome<FittedBox> fit = BoxMeasurement.of(plan, curve).fit();
    if (fit instanceof NoResult<FittedBox> none) {
      return Outcome.none(none.because() + instead);
    }
    Outcome<Estimate> tuning =
        ((Found<FittedBox>) fit)
            .value().figures().spaces().stream()
                .filter(each -> each.name().equals(space))
                .findFirst()
                .map(SpaceFigure::tuningHz)
                .orElseGet(() -> Outcome.none("no driver works on the space " + space));
    if (tuning instanceof NoResult<Estimate> none) {
      return Outcome.none(none.because() + instead);
    }
    return tuning.map(
        each ->
            new ChosenTone(
                each.value(),
                String.format(
                    Locale.ROOT,
                    "The tuning of %s by the fit is %.2f Hz (%.2f to %.2f Hz with 95 %%): the cones"
                        + " rest nearly there and the vent does the work.",
                    space,
                    each.value(),
                    each.interval().low(),
                    each.interval().high())));
  }

  private static String instead(double plannedHz) {
    return String.format(
        Locale.ROOT, "; play what the plan expects instead: --frequency %.1f", plannedHz);
  }

  /**
   * The tone to hear by whether one driver is wired backwards, for a box as it was fitted.
   *
   * @param driver the name of one of the plan's drivers, which has others beside it
   * @return none where the curve does not fit the plan, with what to do instead
   */
  public static Outcome<ChosenTone> forSwap(PlannedBox plan, ImpedanceCurve curve, String driver) {
    Outcome<FittedBox> fit = BoxMeasurement.of(plan, curve).fit();
    if (fit instanceof NoResult<FittedBox> none) {
      double plannedHz = TestTones.of(plan.model()).swap(driver).frequencyHz();
      return Outcome.none(none.because() + instead(plannedHz));
    }
    BoxFit fitted = ((Found<FittedBox>) fit).value().fit();
    BoxModel model = plan.model();
    double[] values = Network.of(model).quantities().stream().mapToDouble(fitted::value).toArray();
    TestTones.SwapTone tone = new TestTones(model, values).swap(driver);
    return Outcome.found(
        new ChosenTone(
            tone.frequencyHz(),
            String.format(
                Locale.ROOT,
                "Between 1.3 and 2 times %.1f Hz, where the cones make the sound, a good box loses"
                    + " most by swapping the leads of driver %s here: %.0f dB by the model. Further"
                    + " up drivers that stand apart no longer cancel.",
                tone.tuningHz(),
                driver,
                tone.dropDecibel())));
  }
}
