package conewise.simulator.jig;

import java.util.Map;
import java.util.TreeMap;

/** Lamps and buzzer. */
final class Panel {
  private final Map<String, String> lamps = new TreeMap<>();
  private final long ticksPerSecond;
  private boolean haltSign;
  private long buzzTicks;

  Panel(long ticksPerSecond) {
    this.ticksPerSecond = ticksPerSecond;
  }

  void lamp(String name, String state) {
    lamps.put(name, state);
  }

  /** The busy lamp blinks, whatever was asked of it, until {@link #clearHaltSign}. */
  void showHaltSign() {
    haltSign = true;
  }

  void clearHaltSign() {
    haltSign = false;
  }

  /** on, off or blink. */
  String lamp(String name) {
    return haltSign && name.equals("busy") ? "blink" : lamps.getOrDefault(name, "off");
  }

  void buzz(int milliseconds) {
    buzzTicks = Math.floorDiv(ticksPerSecond * milliseconds + 999, 1000L);
  }

  boolean buzzes() {
    return buzzTicks > 0;
  }

  void tick() {
    buzzTicks = Math.max(0, buzzTicks - 1);
  }
}
