package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

/**
 * The clips between jig and box, leads included.
 *
 * @param ohm resistance when all is well
 * @param looseOhm what a loose clip adds at worst; 0 for a tight one
 * @param jumpsPerSecond how often a loose clip moves, on average
 */
public record Contact(double ohm, double looseOhm, double jumpsPerSecond) {
  /** Checks the values. */
  public Contact {
    require("contact resistance", ohm, 0, 1000, "ohm");
    require("added resistance of a loose clip", looseOhm, 0, 1e6, "ohm");
    require("jumps of a loose clip", jumpsPerSecond, 0, 1000, "a second");
  }

  /** A tight contact. */
  public static Contact tight(double ohm) {
    return new Contact(ohm, 0, 0);
  }

  boolean loose() {
    return looseOhm > 0 && jumpsPerSecond > 0;
  }
}
