package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;

/**
 * What one tone of a thorough sweep gave.
 *
 * @param step the tone's step of the jig's 32-bit phase
 * @param frequencyHz its frequency in hertz
 * @param read the impedance by the jig's nominal scales, or why there is none
 */
public record ToneReading(long step, double frequencyHz, Outcome<ImpedancePoint> read) {

  public ToneReading {
    if (step < 1 || !(frequencyHz > 0)) {
      throw new IllegalArgumentException(
          "the tone is step " + step + ", " + frequencyHz + " Hz; both must be above 0");
    }
  }
}
