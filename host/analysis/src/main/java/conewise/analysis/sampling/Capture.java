package conewise.analysis.sampling;

/**
 * One recording of the voltage across a box's terminals and the current into them, taken together.
 * The two channels have the same number of samples and the same spacing; their first instants may
 * differ, as they do when one converter serves both in turn.
 *
 * @param voltageVolt the voltage across the terminals
 * @param currentAmpere the current into the terminals
 */
public record Capture(SampledChannel voltageVolt, SampledChannel currentAmpere) {

  public Capture {
    if (voltageVolt.length() != currentAmpere.length()) {
      throw new IllegalArgumentException(
          "the voltage has "
              + voltageVolt.length()
              + " samples and the current "
              + currentAmpere.length()
              + "; both must have the same number");
    }
    if (voltageVolt.intervalSeconds() != currentAmpere.intervalSeconds()) {
      throw new IllegalArgumentException(
          "the voltage is sampled every "
              + voltageVolt.intervalSeconds()
              + " s and the current every "
              + currentAmpere.intervalSeconds()
              + " s; both must have the same spacing");
    }
  }
}
