package conewise.station.calibrating;

import static conewise.jig.sweep.Calibration.MOST_OFF;
import static conewise.jig.sweep.Calibration.MOST_SHORT_OHM;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.OpenReading;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.SweepResult;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What lies between the clips while a reading for a calibration is taken. */
public enum CalibrationStep {
  /** Nothing. */
  OPEN("Leave the clips open, apart from each other and from everything else."),
  /** A short. */
  SHORT("Clip the two clips onto one another."),
  /** The known resistor. */
  RESISTOR("Put the known resistor of %.4g ohm between the clips.");

  /** Open clips read far more than any box; a box or a resistor on them far less. */
  private static final double LEAST_OPEN_OHM = 500;

  /**
   * A resistor reads alike from 10 to 400 Hz; two filters of 5 % parts tilt it by less than 1 %, a
   * box by far more.
   */
  private static final double MOST_TILT = 0.06;

  /** 200 ohm, the most that is allowed, stay below this on a quiet jig, 10 ohm at an eighth. */
  private static final double MOST_NOISE = 0.015;

  /** Findings that forbid to use a reading of a step, whatever its value. */
  private static final Set<Kind> ALWAYS = Set.of(Kind.FOREIGN_VOLTAGE, Kind.CLIPPED);

  private final String instruction;

  CalibrationStep(String instruction) {
    this.instruction = instruction;
  }

  /** What a person is to do. */
  public String instruction(double resistorOhm) {
    return text(instruction, resistorOhm);
  }

  /**
   * Why a reading cannot be of this step.
   *
   * @param resistorOhm what the known resistor is
   * @return one or two sentences, or nothing when it may
   */
  public Optional<String> wrong(SweepResult result, double resistorOhm) {
    return finding(result, ALWAYS)
        .or(() -> wrongValue(result, resistorOhm))
        .or(() -> finding(result, steadyKinds()))
        .or(() -> this == RESISTOR ? noisy(result) : Optional.empty())
        .or(() -> this == RESISTOR ? tilted(result) : Optional.empty());
  }

  /** A contact that moves shows wherever a current flows. */
  private Set<Kind> steadyKinds() {
    return switch (this) {
      case OPEN -> Set.of();
      case SHORT -> Set.of(Kind.LOOSE_CLIP);
      case RESISTOR -> Set.of(Kind.LOOSE_CLIP);
    };
  }

  private static Optional<String> finding(SweepResult result, Set<Kind> kinds) {
    return result.measurement().findings().stream()
        .filter(BenchFinding::spoils)
        .filter(finding -> kinds.contains(finding.kind()))
        .findFirst()
        .map(finding -> sentence(finding.sentence()) + " " + sentence(finding.nextStep()));
  }

  private static String sentence(String text) {
    String begun = text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    return begun.endsWith(".") ? begun : begun + ".";
  }

  private Optional<String> wrongValue(SweepResult result, double resistorOhm) {
    double openOhm = openOhm(result);
    if (this == OPEN) {
      return open(openOhm);
    }
    if (openOhm >= LEAST_OPEN_OHM) {
      return Optional.of(
          "Hardly any current flows: the clips are still open, or one of them does not bite.");
    }
    double ohm = middleOhm(result);
    if (Double.isNaN(ohm)) {
      return Optional.of("Nothing could be read there.");
    }
    return this == SHORT ? shorted(ohm) : resistor(ohm, resistorOhm);
  }

  private static Optional<String> open(double ohm) {
    if (Double.isNaN(ohm)) {
      return Optional.of(
          "Nothing could be read there: hardly any voltage stands on the clips. Part them.");
    }
    return ohm >= LEAST_OPEN_OHM
        ? Optional.empty()
        : Optional.of(
            text(
                "That reads %.4g ohm; open clips read at least %.0f ohm. Something is still between"
                    + " the clips.",
                ohm, LEAST_OPEN_OHM));
  }

  private static Optional<String> shorted(double ohm) {
    return ohm <= MOST_SHORT_OHM
        ? Optional.empty()
        : Optional.of(
            text("That reads %.4g ohm; joined clips read at most %.1f ohm.", ohm, MOST_SHORT_OHM));
  }

  private static Optional<String> resistor(double ohm, double resistorOhm) {
    double ratio = ohm / resistorOhm;
    return Math.abs(ratio - 1) <= MOST_OFF
        ? Optional.empty()
        : Optional.of(
            text(
                    "That reads %.4g ohm; a resistor of %.4g ohm reads %.4g to %.4g ohm on an"
                        + " uncalibrated jig.",
                    ohm, resistorOhm, resistorOhm * (1 - MOST_OFF), resistorOhm * (1 + MOST_OFF))
                + hint(ohm, ratio));
  }

  private static Optional<String> noisy(SweepResult result) {
    if (!(result.readCurve() instanceof Outcome.Found<ImpedanceCurve> found)) {
      return Optional.empty();
    }
    double[] sorted =
        found.value().points().stream()
            .mapToDouble(p -> p.standardUncertaintyOhm().orElse(0.0) / p.modulusOhm())
            .sorted()
            .toArray();
    double noise = sorted[sorted.length / 2];
    return noise <= MOST_NOISE
        ? Optional.empty()
        : Optional.of(
            text(
                "That is uncertain to %.1f %% by noise; a calibration takes at most %.1f %%. Keep"
                    + " the leads short and away from mains and chargers.",
                100 * noise, 100 * MOST_NOISE));
  }

  private static Optional<String> tilted(SweepResult result) {
    double tilt = tilt(result);
    return tilt <= MOST_TILT
        ? Optional.empty()
        : Optional.of(
            text(
                "That varies by %.0f %% from 10 to 400 Hz, and a resistor by at most %.0f %%: a box"
                    + " or a coil is still between the clips, or one of them moves.",
                100 * tilt, 100 * MOST_TILT));
  }

  private static String hint(double ohm, double ratio) {
    if (ohm <= MOST_SHORT_OHM) {
      return " The clips are still joined.";
    }
    int decades = (int) Math.round(Math.log10(ratio));
    boolean wrongDecade = decades != 0 && Math.abs(ratio / Math.pow(10, decades) - 1) <= MOST_OFF;
    return wrongDecade
        ? text(
            " That is about %s of it: look at the multiplier band again.",
            decades > 0
                ? Math.round(Math.pow(10, decades)) + " times"
                : "one part in " + Math.round(Math.pow(10, -decades)))
        : " It is another resistor, or the jig was built with a wrong part.";
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
    if (!(OpenReading.of(result.captures().get(0), hz)
        instanceof Outcome.Found<OpenReading> found)) {
      return Double.NaN;
    }
    List<OpenReading.Point> points = found.value().points();
    double[] siemens =
        points.stream()
            .mapToDouble(p -> Math.hypot(p.conductanceSiemens(), p.susceptanceSiemens()))
            .sorted()
            .toArray();
    return 1 / siemens[siemens.length / 2];
  }

  private static double middleOhm(SweepResult result) {
    double[] sorted = sortedModuli(result);
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }

  /** By how much the moduli differ, leaving a twentieth aside at either end. */
  private static double tilt(SweepResult result) {
    double[] sorted = sortedModuli(result);
    return sorted[sorted.length * 19 / 20] / sorted[sorted.length / 20] - 1;
  }

  private static double[] sortedModuli(SweepResult result) {
    return result.readCurve() instanceof Outcome.Found<ImpedanceCurve> found
        ? found.value().points().stream().mapToDouble(ImpedancePoint::modulusOhm).sorted().toArray()
        : new double[0];
  }
}
