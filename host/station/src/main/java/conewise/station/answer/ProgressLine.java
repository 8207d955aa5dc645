package conewise.station.answer;

import java.util.Locale;
import java.util.function.LongSupplier;

/**
 * Progress on the error stream: nothing in the first second; then, on a terminal, one line that is
 * written over, elsewhere a line every few seconds.
 */
public final class ProgressLine implements AutoCloseable {
  private static final long FIRST_NANOS = 1_000_000_000L;
  private static final long TERMINAL_NANOS = 100_000_000L;
  private static final long ELSEWHERE_NANOS = 3_000_000_000L;
  private static final int WIDTH = 78;

  private final Screen screen;
  private final LongSupplier clock;
  private final long begun;
  private long lastShown;
  private boolean drawn;

  /** Progress by the machine's clock. */
  public ProgressLine(Screen screen) {
    this(screen, System::nanoTime);
  }

  /** Progress that is never shown, of a part of something that shows its own. */
  public static ProgressLine silent(Screen screen) {
    return new ProgressLine(screen, () -> 0);
  }

  ProgressLine(Screen screen, LongSupplier clock) {
    this.screen = screen;
    this.clock = clock;
    this.begun = clock.getAsLong();
    this.lastShown = begun + FIRST_NANOS - spacing();
  }

  /**
   * Shows how far something has come, if it is time to.
   *
   * @param fraction 0 to 1
   * @param what what is being done, a few words
   */
  public void show(double fraction, String what) {
    long now = clock.getAsLong();
    if (now - begun < FIRST_NANOS || now - lastShown < spacing()) {
      return;
    }
    lastShown = now;
    String line = String.format(Locale.ROOT, "%3.0f %%  %s", 100 * fraction, what);
    if (screen.interactive()) {
      String fitted = line.length() > WIDTH ? line.substring(0, WIDTH) : line;
      screen.err().print("\r" + fitted + " ".repeat(WIDTH - fitted.length()));
      screen.err().flush();
      drawn = true;
    } else {
      screen.err().println(line);
    }
  }

  private long spacing() {
    return screen.interactive() ? TERMINAL_NANOS : ELSEWHERE_NANOS;
  }

  /** The same as {@link #wipe()}. */
  @Override
  public void close() {
    wipe();
  }

  /** Wipes the line off a terminal; the next progress draws it again. */
  public void wipe() {
    if (drawn) {
      screen.err().print("\r" + " ".repeat(WIDTH) + "\r");
      screen.err().flush();
      drawn = false;
    }
  }
}
