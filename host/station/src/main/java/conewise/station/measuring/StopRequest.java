package conewise.station.measuring;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Listens for Ctrl-C (or any other order to end) while a measurement runs. The measurement sees the
 * wish, stops the drive, keeps what it has and says so; the process ends when that is done, or
 * after five seconds.
 */
public final class StopRequest implements AutoCloseable {
  private static final long PATIENCE_SECONDS = 5;

  private final CountDownLatch done = new CountDownLatch(1);
  private final Thread hook = new Thread(this::ask, "stop-request");
  private volatile boolean asked;

  /** Starts to listen. */
  public static StopRequest listen() {
    StopRequest request = new StopRequest();
    Runtime.getRuntime().addShutdownHook(request.hook);
    return request;
  }

  private StopRequest() {}

  private void ask() {
    asked = true;
    try {
      if (!done.await(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        System.err.println("conewise: the measurement did not stop in 5 s; ending without it.");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** True once somebody asked for the end. */
  public boolean asked() {
    return asked;
  }

  /** Lets the process end: what was measured is safe and said. */
  @Override
  public void close() {
    if (!asked) {
      try {
        Runtime.getRuntime().removeShutdownHook(hook);
      } catch (IllegalStateException endingAlready) {
        // The order came in this very moment; the latch below lets it go on.
        asked = true;
      }
    }
    done.countDown();
  }
}
