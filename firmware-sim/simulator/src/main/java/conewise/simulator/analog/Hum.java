package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

/**
 * Mains hum picked up by the leads.
 *
 * @param frequencyHz of the mains
 * @param leadVolt peak voltage induced in the loop of the leads
 * @param injectedAmpere peak current that stray capacitance drives into the terminals
 */
public record Hum(double frequencyHz, double leadVolt, double injectedAmpere) {
  /** A quiet bench. */
  public static final Hum NONE = new Hum(50, 0, 0);

  /** Resistance behind the injected current: so large that it does not load the box. */
  static final double INJECTION_OHM = 100_000;

  /** Checks the values. */
  public Hum {
    require("frequency of the hum", frequencyHz, 10, 1000, "Hz");
    require("hum voltage in the leads", leadVolt, 0, 10, "V");
    require("hum current into the terminals", injectedAmpere, 0, 0.002, "A");
  }
}
