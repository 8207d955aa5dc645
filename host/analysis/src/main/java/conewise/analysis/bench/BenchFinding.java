package conewise.analysis.bench;

/**
 * Something about the measurement that a person must know: it was clipped, hum was picked up, a
 * clip is loose, nothing or a short is on the terminals, something else drives them.
 *
 * @param kind what it is
 * @param spoils true when no verdict may rest on this measurement
 * @param sentence what was seen, where, its value and the limit
 * @param nextStep what to do about it
 */
public record BenchFinding(Kind kind, boolean spoils, String sentence, String nextStep) {

  /** The kinds of bench trouble. */
  public enum Kind {
    CLIPPED,
    HUM,
    LOOSE_CLIP,
    OPEN_TERMINALS,
    SHORTED_TERMINALS,
    OTHER_BOX,
    FOREIGN_VOLTAGE,
    TOO_NOISY,
    LINK,
    CALIBRATION,
    FIXTURE,
    COVERAGE
  }

  public BenchFinding {
    if (sentence.isBlank() || nextStep.isBlank()) {
      throw new IllegalArgumentException("a finding says what was seen and what to do");
    }
  }
}
