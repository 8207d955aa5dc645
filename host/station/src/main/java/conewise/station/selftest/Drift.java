package conewise.station.selftest;

import java.util.List;
import java.util.Optional;

/**
 * A reading of a check resistor against the resistor's value, and against the first reading that
 * the jig took of the same one.
 *
 * <p>Each comparison is a deviation with its 95 % interval, decided as JCGM 106 decides: good only
 * when the whole interval lies within the limit, drifted only when it lies outside.
 *
 * @param againstValue the reading against the resistor's value
 * @param againstFirst the reading against the first one, when there is an earlier one
 * @param limitFraction how far a reading may deviate
 */
public record Drift(
    Comparison againstValue, Optional<Comparison> againstFirst, double limitFraction) {

  /** For a 95 % interval (JCGM 100, 6.3.3). */
  private static final double COVERAGE = 2;

  /** Clips that are put on again read within this of before, in ohm (common practice). */
  private static final double CONTACT_OHM = 0.02;

  /** What a kelvin does to an ordinary film resistor at most (common practice: 100 ppm). */
  private static final double PER_KELVIN = 100e-6;

  /** Where nobody said the temperatures, rooms differ by this, in kelvin. */
  private static final double ROOMS_DIFFER = 10;

  private static final double ROOT_3 = Math.sqrt(3);

  /** What is said. */
  public enum Word {
    /** Within the limit, the whole interval. */
    GOOD,
    /** Outside the limit, the whole interval. */
    DRIFTED,
    /** The interval crosses the limit. */
    UNDECIDED
  }

  /**
   * One comparison.
   *
   * @param expectedOhm what the reading is held against
   * @param deviation the reading over it less 1
   * @param expanded half of its 95 % interval
   * @param word what follows
   */
  public record Comparison(double expectedOhm, double deviation, double expanded, Word word) {}

  /**
   * Compares.
   *
   * @param now the reading
   * @param earlier readings on the same jig, of any resistor, in the order in which they were taken
   * @param limitFraction how far a reading may deviate, positive
   */
  public static Drift of(CheckReading now, List<CheckReading> earlier, double limitFraction) {
    if (!(limitFraction > 0)) {
      throw new IllegalArgumentException("the limit is " + limitFraction + "; it must be positive");
    }
    return new Drift(
        compare(now, now.valueOhm(), ofValue(now), limitFraction),
        first(now, earlier)
            .map(then -> compare(now, then.readOhm(), ofChange(now, then), limitFraction)),
        limitFraction);
  }

  /** The earlier readings of the same resistor. */
  public static List<CheckReading> sameResistor(CheckReading now, List<CheckReading> earlier) {
    return earlier.stream()
        .filter(then -> then.resistor().equals(now.resistor()))
        .filter(then -> then.valueOhm() == now.valueOhm())
        .toList();
  }

  /** With the calibration in use where there is one, so that its scale drops out. */
  private static Optional<CheckReading> first(CheckReading now, List<CheckReading> earlier) {
    List<CheckReading> same = sameResistor(now, earlier);
    return same.stream()
        .filter(then -> then.calibration().equals(now.calibration()))
        .findFirst()
        .or(() -> same.stream().findFirst());
  }

  private static Comparison compare(
      CheckReading now, double expectedOhm, double variance, double limit) {
    double deviation = now.readOhm() / expectedOhm - 1;
    double expanded = COVERAGE * Math.sqrt(variance);
    Word word =
        Math.abs(deviation) + expanded <= limit
            ? Word.GOOD
            : Math.abs(deviation) - expanded > limit ? Word.DRIFTED : Word.UNDECIDED;
    return new Comparison(expectedOhm, deviation, expanded, word);
  }

  /** Relative variance of a reading over the value: noise, contact, scale, tolerance, warmth. */
  private static double ofValue(CheckReading now) {
    return ofReading(now)
        + square(now.scaleUncertainty())
        + square(now.toleranceFraction() / ROOT_3)
        + warmth(ROOMS_DIFFER);
  }

  /** Relative variance of two readings' ratio; a scale that both share drops out. */
  private static double ofChange(CheckReading now, CheckReading then) {
    boolean sameScale = now.calibration().equals(then.calibration());
    double kelvin =
        now.temperatureCelsius().isPresent() && then.temperatureCelsius().isPresent()
            ? Math.abs(now.temperatureCelsius().get() - then.temperatureCelsius().get())
            : ROOMS_DIFFER;
    double scales =
        sameScale ? 0 : square(now.scaleUncertainty()) + square(then.scaleUncertainty());
    return ofReading(now) + ofReading(then) + scales + warmth(kelvin);
  }

  private static double ofReading(CheckReading reading) {
    return square(reading.noiseOhm() / reading.readOhm())
        + square(CONTACT_OHM / ROOT_3 / reading.readOhm());
  }

  private static double warmth(double kelvin) {
    return square(PER_KELVIN * kelvin / ROOT_3);
  }

  private static double square(double x) {
    return x * x;
  }

  /**
   * What is said of the jig: the change since the first reading decides, and the value alone where
   * there is none; a reading that is surely off its value has drifted whatever the first one was.
   */
  public Word word() {
    if (againstValue.word() == Word.DRIFTED) {
      return Word.DRIFTED;
    }
    return againstFirst.map(Comparison::word).orElse(againstValue.word());
  }
}
