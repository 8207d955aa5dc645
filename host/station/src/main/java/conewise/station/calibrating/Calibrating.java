package conewise.station.calibrating;

import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.SweepResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** Takes the three readings of a calibration on a bench and makes one of them. */
public final class Calibrating {

  /** How often a step that reads as something else is asked for. */
  private static final int TRIES = 3;

  /** Where the readings are taken. */
  public interface Bench {

    /**
     * Sweeps, without a look at the bench, with this between the clips.
     *
     * @throws CommandFailure when the jig fails, or nobody is there to do it
     */
    SweepResult sweep(CalibrationStep step) throws CommandFailure;

    /** Tells a person that a step read as something else. */
    void refused(CalibrationStep step, String sentence);
  }

  private final Bench bench;
  private final double resistorOhm;
  private final double toleranceFraction;

  /**
   * A calibration to be made.
   *
   * @param resistorOhm what the known resistor is, positive
   * @param toleranceFraction its tolerance over its value; all values within are equally likely
   *     (JCGM 100, 4.3.7)
   */
  public Calibrating(Bench bench, double resistorOhm, double toleranceFraction) {
    this.bench = bench;
    this.resistorOhm = resistorOhm;
    this.toleranceFraction = toleranceFraction;
  }

  /**
   * Takes the readings, each step again when it reads as something else.
   *
   * @param id the name of the calibration, 1 to 16 letters, digits or hyphens
   * @throws CommandFailure not judged, when a step stays wrong or the three do not fit together
   */
  public Calibration run(String id) throws CommandFailure {
    Map<CalibrationStep, SweepResult> readings = new EnumMap<>(CalibrationStep.class);
    for (CalibrationStep step : CalibrationStep.values()) {
      readings.put(step, reading(step));
    }
    Outcome<Calibration> calibration =
        Calibration.of(
            id,
            readings.get(CalibrationStep.OPEN),
            readings.get(CalibrationStep.SHORT),
            readings.get(CalibrationStep.RESISTOR),
            resistorOhm,
            OnePortCorrection.uncertaintyOfTolerance(resistorOhm, toleranceFraction));
    if (calibration instanceof Outcome.Found<Calibration> found) {
      return found.value();
    }
    throw new CommandFailure(
        ExitCode.NOT_JUDGED,
        "The jig was not calibrated: " + ((Outcome.NoResult<Calibration>) calibration).because());
  }

  private SweepResult reading(CalibrationStep step) throws CommandFailure {
    for (int attempt = 1; ; attempt++) {
      SweepResult result = bench.sweep(step);
      Optional<String> wrong = step.wrong(result, resistorOhm);
      if (wrong.isEmpty()) {
        return result;
      }
      if (attempt == TRIES) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED,
            "The jig was not calibrated. " + wrong.get() + " " + step.instruction());
      }
      bench.refused(step, wrong.get());
    }
  }
}
