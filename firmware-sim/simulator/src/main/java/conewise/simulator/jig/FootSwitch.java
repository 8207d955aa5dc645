package conewise.simulator.jig;

/** A foot switch whose contact must stand for 20 ms before it counts. */
final class FootSwitch {
  private static final int DEBOUNCE_MILLISECONDS = 20;

  private final long debounceTicks;
  private boolean contact;
  private boolean down;
  private long steadyTicks;

  FootSwitch(long ticksPerSecond, boolean contact) {
    this.debounceTicks = Math.floorDiv(ticksPerSecond * DEBOUNCE_MILLISECONDS + 999, 1000L);
    this.contact = contact;
    this.down = contact;
  }

  /** What the contact does, bounces included. */
  void contact(boolean closed) {
    contact = closed;
  }

  boolean contact() {
    return contact;
  }

  /** A tick passes; true when the debounced state changes with it. */
  boolean tick() {
    steadyTicks = contact == down ? 0 : steadyTicks + 1;
    if (steadyTicks < debounceTicks) {
      return false;
    }
    down = contact;
    steadyTicks = 0;
    return true;
  }

  /** The debounced state. */
  boolean down() {
    return down;
  }
}
