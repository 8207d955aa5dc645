package conewise.station.calibrating;

import static conewise.jig.sweep.Calibration.MOST_OFF;
import static conewise.jig.sweep.Calibration.MOST_SHORT_OHM;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.OpenReading;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.SweepResult;
import java.util.Locale;
import java.util.Optional;

/** What lies between the clips while a reading for a calibration is taken. */
public enum CalibrationStep {
  /** Nothing. */
  OPEN("Leave the clips open, apart from each other and from everything else."),
  /** A short. */
  SHORT("Clip the two clips onto one another."),
  /** The known resistor. */
  RESISTOR("Put the known resistor between the clips.");

  /** Open clips read far more than any box; a box or a resistor on them far less. */
  private static final double LEAST_OPEN_OHM = 500;

  private final String instruction;

  CalibrationStep(String instruction) {
    this.instruction = instruction;
  }

  /** What a person is to do. */
  public String instruction() {
    return instruction;
  }

  /**
   * Why a reading cannot be of this step.
   *
   * @param resistorOhm what the known resistor is
   * @return one sentence, or nothing when it may be
   */
  Optional<String> wrong(SweepResult result, double resistorOhm) {
    double ohm = this == OPEN ? openOhm(result) : middleOhm(result);
    if (Double.isNaN(ohm)) {
      return Optional.of("Nothing could be read there.");
    }
    boolean right =
        switch (this) {
          case OPEN -> ohm >= LEAST_OPEN_OHM;
          case SHORT -> ohm <= MOST_SHORT_OHM;
          case RESISTOR -> Math.abs(ohm / resistorOhm - 1) <= MOST_OFF;
        };
    String wanted =
        switch (this) {
          case OPEN -> text("open clips read at least %.0f ohm", LEAST_OPEN_OHM);
          case SHORT -> text("joined clips read at most %.1f ohm", MOST_SHORT_OHM);
          case RESISTOR ->
              text(
                  "a resistor of %.4g ohm reads %.4g to %.4g ohm on an uncalibrated jig",
                  resistorOhm, resistorOhm * (1 - MOST_OFF), resistorOhm * (1 + MOST_OFF));
        };
    return right ? Optional.empty() : Optional.of(text("That reads %.4g ohm; %s.", ohm, wanted));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  /** Open clips have hardly a current, so their admittance is read; NaN when nothing was. */
  private static double openOhm(SweepResult result) {
    if (result.captures().isEmpty()) {
      return Double.NaN;
    }
    double[] hz = result.frequenciesHz().stream().mapToDouble(Double::doubleValue).toArray();
    return OpenReading.of(result.captures().get(0), hz) instanceof Outcome.Found<OpenReading> found
        ? 1
            / found.value().points().stream()
                .mapToDouble(p -> Math.hypot(p.conductanceSiemens(), p.susceptanceSiemens()))
                .sorted()
                .skip(found.value().points().size() / 2)
                .findFirst()
                .orElse(Double.NaN)
        : Double.NaN;
  }

  private static double middleOhm(SweepResult result) {
    return result.readCurve() instanceof Outcome.Found<ImpedanceCurve> found
        ? found.value().points().stream()
            .mapToDouble(ImpedancePoint::modulusOhm)
            .sorted()
            .skip(found.value().points().size() / 2)
            .findFirst()
            .orElse(Double.NaN)
        : Double.NaN;
  }
}
