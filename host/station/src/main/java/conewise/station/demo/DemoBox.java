package conewise.station.demo;

import conewise.analysis.judgement.Decision;
import conewise.simulator.world.DemoWorld;

/**
 * A box of the demo: its world, the plan that it was built to, and whether it was built right. What
 * the verdict may be follows from the last alone.
 */
enum DemoBox {
  GOOD_VENTED("H-101", DemoWorld.HERON, "heron", true, "good, vented, two drivers"),
  DRIVER_REVERSED("H-102", DemoWorld.HERON_DRIVER_REVERSED, "heron", false, "one driver reversed"),
  COIL_REVERSED("H-103", DemoWorld.HERON_COIL_REVERSED, "heron", false, "one voice coil reversed"),
  LEAKY("H-104", DemoWorld.HERON_LEAKY, "heron", false, "leaky"),
  MISTUNED("H-105", DemoWorld.HERON_VENT_SHORT, "heron", false, "vent too short"),
  GOOD_SEALED("W-201", DemoWorld.WREN, "wren", true, "good, sealed, two drivers"),
  SEALED_REVERSED(
      "W-202", DemoWorld.WREN_DRIVER_REVERSED, "wren", false, "sealed, one driver reversed"),
  SEPARATE_SPACES("P-301", DemoWorld.PLOVER, "plover", false, "separate spaces, one reversed");

  private final String serial;
  private final DemoWorld world;
  private final String plan;
  private final boolean good;
  private final String truth;

  DemoBox(String serial, DemoWorld world, String plan, boolean good, String truth) {
    this.serial = serial;
    this.world = world;
    this.plan = plan;
    this.good = good;
    this.truth = truth;
  }

  String serial() {
    return serial;
  }

  DemoWorld world() {
    return world;
  }

  /** The name of the bundled plan. */
  String plan() {
    return plan;
  }

  String truth() {
    return truth;
  }

  /** How a verdict stands to the truth. A box that could not be judged is a miss of the demo. */
  Match match(Decision decision) {
    return switch (decision) {
      case PASS -> good ? Match.YES : Match.NO;
      case FAIL -> good ? Match.NO : Match.YES;
      case UNDECIDED -> Match.HONESTLY_UNDECIDED;
      case NOT_JUDGED -> Match.NO;
    };
  }

  /** Whether verdict and truth agree. */
  enum Match {
    YES("yes"),
    HONESTLY_UNDECIDED("honestly undecided"),
    NO("NO");

    private final String words;

    Match(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }
}
