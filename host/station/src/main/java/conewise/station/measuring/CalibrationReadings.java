package conewise.station.measuring;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.impedance.OpenReading;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.SweepResult;

/**
 * The three sweeps that calibrate a jig.
 *
 * @param open with nothing on the clips
 * @param shorted with the clips together
 * @param standard with a known resistor on them
 */
public record CalibrationReadings(SweepResult open, SweepResult shorted, SweepResult standard) {

  /**
   * Makes a calibration of them.
   *
   * @param id its name, 1 to 16 letters, digits or hyphens
   * @param resistorOhm what the resistor is, in ohm
   * @param toleranceFraction its tolerance, e.g. 0.001
   * @return the calibration, or why one of the readings cannot serve
   */
  public Outcome<Calibration> calibration(String id, double resistorOhm, double toleranceFraction) {
    if (open.captures().isEmpty()) {
      return Outcome.none("the sweep of the open clips gave no record");
    }
    double[] frequenciesHz =
        open.frequenciesHz().stream().mapToDouble(Double::doubleValue).toArray();
    Outcome<OpenReading> none = OpenReading.of(open.captures().get(0), frequenciesHz);
    if (none instanceof Outcome.Found<OpenReading> nothing
        && shorted.readCurve() instanceof Outcome.Found<ImpedanceCurve> together
        && standard.readCurve() instanceof Outcome.Found<ImpedanceCurve> known) {
      double uncertainty = OnePortCorrection.uncertaintyOfTolerance(resistorOhm, toleranceFraction);
      return Outcome.found(
          new Calibration(
              id,
              new OnePortCorrection(
                  nothing.value(), together.value(), known.value(), resistorOhm, uncertainty)));
    }
    return Outcome.none(
        "open clips: "
            + said(none)
            + "; clips together: "
            + said(shorted.readCurve())
            + "; resistor: "
            + said(standard.readCurve()));
  }

  private static String said(Outcome<?> outcome) {
    return outcome instanceof Outcome.NoResult<?> none ? none.because() : "read";
  }
}
