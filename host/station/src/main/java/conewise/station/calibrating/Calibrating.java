package conewise.station.calibrating;

import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** Takes the three readings of a calibration and makes one of them. */
public final class Calibrating {

  /** How often a step that reads as something else is asked for. */
  private static final int TRIES = 3;

  private final Clips clips;
  private final double resistorOhm;
  private final double toleranceFraction;
  private final ProgressLine progress;
  private final StopRequest stop;
  private final SweepSettings settings;

  /**
   * A calibration to be made.
   *
   * @param resistorOhm what the known resistor is, positive
   * @param toleranceFraction its tolerance over its value; all values within are equally likely
   *     (JCGM 100, 4.3.7)
   */
  public Calibrating(
      Clips clips,
      double resistorOhm,
      double toleranceFraction,
      ProgressLine progress,
      StopRequest stop) {
    this(
        clips,
        resistorOhm,
        toleranceFraction,
        progress,
        stop,
        SweepSettings.standard().listeningOnly());
  }

  private Calibrating(
      Clips clips,
      double resistorOhm,
      double toleranceFraction,
      ProgressLine progress,
      StopRequest stop,
      SweepSettings settings) {
    this.clips = clips;
    this.resistorOhm = resistorOhm;
    this.toleranceFraction = toleranceFraction;
    this.progress = progress;
    this.stop = stop;
    this.settings = settings;
  }

  /** The same for clips on which no foreign voltage can be, so that nobody listens for one. */
  public Calibrating withoutListening() {
    return new Calibrating(
        clips, resistorOhm, toleranceFraction, progress, stop, settings.withoutSelfCheck());
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
      readings.put(step, reading(step, readings.size() + 1));
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

  private SweepResult reading(CalibrationStep step, int number) throws CommandFailure {
    String instruction = "Step " + number + " of 3. " + step.instruction(resistorOhm);
    for (int attempt = 1; ; attempt++) {
      SweepResult result =
          clips.then(instruction, step, client -> sweep(client, settings, progress, stop));
      Optional<String> wrong = step.wrong(result, resistorOhm);
      if (wrong.isEmpty()) {
        return result;
      }
      if (attempt == TRIES) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED,
            "The jig was not calibrated. " + wrong.get() + " " + step.instruction(resistorOhm));
      }
      clips.refused(wrong.get());
    }
  }

  /** A quick sweep; one that is interrupted ends the command. */
  public static SweepResult sweep(
      JigClient client, SweepSettings settings, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    SweepOutcome outcome =
        new SweepRun(SweepKind.QUICK, settings, Optional.empty()).run(client, progress, stop);
    if (outcome instanceof Interrupted interrupted) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, interrupted.because() + " " + interrupted.nextStep());
    }
    return (SweepResult) outcome;
  }
}
