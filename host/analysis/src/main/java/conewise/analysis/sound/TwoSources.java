package conewise.analysis.sound;

import conewise.analysis.outcome.Outcome;

/**
 * Two sources of one sine at one place, as one driver turned against another, or two boxes at
 * unlike distances: the pressures add as arrows do (L. E. Kinsler and others, Fundamentals of
 * Acoustics, from memory).
 *
 * @param differenceDecibel level of the second, alone, less that of the first, alone
 */
public record TwoSources(double differenceDecibel) {
  /** Beyond this the weaker is no source any longer. */
  public static final double MOST_DIFFERENCE_DECIBEL = 200;

  /** A sum this small against the first is rounding, not sound. */
  private static final double NOTHING = 1e-12;

  private static final double DECIBELS = 20;

  public TwoSources {
    if (!(Math.abs(differenceDecibel) <= MOST_DIFFERENCE_DECIBEL)) {
      throw new IllegalArgumentException(
          "the second source is "
              + differenceDecibel
              + " dB off the first; it must lie from -"
              + MOST_DIFFERENCE_DECIBEL
              + " to "
              + MOST_DIFFERENCE_DECIBEL);
    }
  }

  /** Two alike. */
  public static TwoSources equal() {
    return new TwoSources(0);
  }

  /**
   * Level of both together less that of the first alone, in decibels; no result where nothing is
   * left.
   *
   * @param phaseDegrees of the second against the first, finite
   */
  public Outcome<Double> sumDecibel(double phaseDegrees) {
    double sum = sum(phaseDegrees);
    return sum < NOTHING * (1 + ratio())
        ? Outcome.none("the two cancel and nothing is left")
        : Outcome.found(DECIBELS * Math.log10(sum));
  }

  /** The highest level, where both are in step, less that of the first, in decibels. */
  public double mostDecibel() {
    return DECIBELS * Math.log10(1 + ratio());
  }

  /** The lowest, half a turn apart; no result where two alike leave nothing. */
  public Outcome<Double> leastDecibel() {
    return sumDecibel(180);
  }

  private double ratio() {
    return Math.pow(10, differenceDecibel / DECIBELS);
  }

  /** |1 + r e^(j phi)|; by the half angle, which stays exact where the two nearly cancel. */
  private double sum(double phaseDegrees) {
    if (!Double.isFinite(phaseDegrees)) {
      throw new IllegalArgumentException(
          "the phase is " + phaseDegrees + " degrees; it must be finite");
    }
    double half = Math.toRadians(Math.IEEEremainder(phaseDegrees, 360)) / 2;
    return Math.hypot((1 + ratio()) * Math.cos(half), (1 - ratio()) * Math.sin(half));
  }
}
