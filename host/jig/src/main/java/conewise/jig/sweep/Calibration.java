package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.impedance.OpenReading;
import conewise.analysis.impedance.SmoothReading;
import conewise.analysis.outcome.Outcome;
import java.util.Locale;
import java.util.Optional;

/**
 * A correction and the name that it goes by.
 *
 * @param id its name: 1 to 16 letters, digits or hyphens, as a jig stores it
 * @param correction what open, short and a known resistor read
 */
public record Calibration(String id, OnePortCorrection correction) {

  /** Two gains of 5 %, a sense resistor of 1 % and leads: more is a wrong resistor. */
  public static final double MOST_OFF = 0.2;

  /** Leads and clips: more, in ohm, is no short. */
  public static final double MOST_SHORT_OHM = 0.5;

  public Calibration {
    if (!id.matches("[A-Za-z0-9-]{1,16}")) {
      throw new IllegalArgumentException(
          "the calibration is called \"" + id + "\"; it takes 1 to 16 letters, digits or hyphens");
    }
  }

  /**
   * Makes a calibration from three quick sweeps of one jig without a look at the bench: terminals
   * open, shorted, and joined by a known resistor. Their noise is taken out by {@link
   * SmoothReading}: it would stand in every curve corrected afterwards.
   *
   * @param standardOhm what the resistor is, in ohm
   * @param standardUncertaintyOhm its standard uncertainty in ohm; see {@link
   *     OnePortCorrection#uncertaintyOfTolerance}
   * @return the calibration; or no result when a reading is missing, was not what it should be, or
   *     the three are not of one jig
   */
  public static Outcome<Calibration> of(
      String id,
      SweepResult open,
      SweepResult shorted,
      SweepResult standard,
      double standardOhm,
      double standardUncertaintyOhm) {
    if (!open.jig().equals(shorted.jig()) || !open.jig().equals(standard.jig())) {
      return Outcome.none("The three readings are not of one jig; take all three on one.");
    }
    if (open.captures().isEmpty()) {
      return Outcome.none("The open terminals were not recorded; sweep them again.");
    }
    double[] frequenciesHz =
        open.frequenciesHz().stream().mapToDouble(Double::doubleValue).toArray();
    Outcome<OpenReading> openRead = OpenReading.of(open.captures().get(0), frequenciesHz);
    if (openRead instanceof Outcome.NoResult<OpenReading> none) {
      return Outcome.none("Open terminals: " + none.because() + ".");
    }
    if (shorted.readCurve() instanceof Outcome.NoResult<ImpedanceCurve> none) {
      return Outcome.none("Shorted terminals: " + none.because() + ".");
    }
    if (standard.readCurve() instanceof Outcome.NoResult<ImpedanceCurve> none) {
      return Outcome.none("Known resistor: " + none.because() + ".");
    }
    OpenReading openFound = ((Outcome.Found<OpenReading>) openRead).value();
    ImpedanceCurve shortFound = ((Outcome.Found<ImpedanceCurve>) shorted.readCurve()).value();
    ImpedanceCurve standardFound = ((Outcome.Found<ImpedanceCurve>) standard.readCurve()).value();
    return implausible(shortFound, standardFound, standardOhm)
        .<Outcome<Calibration>>map(Outcome::none)
        .orElseGet(
            () ->
                Outcome.found(
                    new Calibration(
                        id,
                        new OnePortCorrection(
                            SmoothReading.of(openFound),
                            SmoothReading.of(shortFound),
                            SmoothReading.of(standardFound),
                            standardOhm,
                            standardUncertaintyOhm))));
  }

  /** A swapped step or a wrong resistor would make a correction that is plausible and wrong. */
  private static Optional<String> implausible(
      ImpedanceCurve shorted, ImpedanceCurve standard, double standardOhm) {
    double shortOhm = middleOhm(shorted);
    double readOhm = middleOhm(standard);
    if (shortOhm > MOST_SHORT_OHM) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "The shorted terminals read %.2f ohm; at most %.1f ohm can be leads and clips.",
              shortOhm,
              MOST_SHORT_OHM));
    }
    if (Math.abs(readOhm / standardOhm - 1) > MOST_OFF) {
      return Optional.of(
          String.format(
              Locale.ROOT,
              "The known resistor reads %.2f ohm instead of %.2f ohm; at most %.0f %% can be the"
                  + " jig's parts.",
              readOhm,
              standardOhm,
              100 * MOST_OFF));
    }
    return Optional.empty();
  }

  private static double middleOhm(ImpedanceCurve curve) {
    double[] sorted =
        curve.points().stream().mapToDouble(ImpedancePoint::modulusOhm).sorted().toArray();
    return sorted[sorted.length / 2];
  }
}
