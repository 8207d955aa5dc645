package conewise.station.study;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.parameter.BoxMeasurement;
import conewise.analysis.plan.PlannedBox;
import conewise.station.planfile.PlannedBoxFile;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Four like drivers, whose differences the terminals hardly tell. */
class FourDriversFitTest {
  /** Of the boxes that this draws, two took more than 300 steps. */
  private static final long SEED = 99L + "gannet".hashCode();

  private static final int BOXES = 16;

  @Test
  void theFitOfAGoodBoxSettlesThoughItsDriversDifferencesStayOpen() throws Exception {
    PlannedBox plan = PlannedBoxFile.bundled("gannet");
    Random random = new Random(SEED);
    for (int i = 0; i < BOXES; i++) {
      assertInstanceOf(
          Found.class,
          BoxMeasurement.of(plan, DrawnSweep.good(plan, random)).fit(),
          "box " + i + ", seed " + SEED);
    }
  }
}
