package conewise.station.study;

import conewise.analysis.plan.PlannedBox;
import conewise.simulator.box.Box;
import java.util.Random;

/** Boxes of a plan as a shop builds them, nothing being wrong with any. */
public final class GoodBoxes {
  private GoodBoxes() {}

  /**
   * One of them.
   *
   * @param plan that states its drivers, spaces and vents
   * @param seed of its parts' spread
   */
  public static Box drawn(PlannedBox plan, long seed) {
    return new BuildSheet(plan, new Random(seed)).box();
  }
}
