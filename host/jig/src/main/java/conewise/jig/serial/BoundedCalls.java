package conewise.jig.serial;

import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/**
 * Runs calls of the operating system that bring no time limit of their own (a write to a full
 * buffer, the closing of a port) on a thread aside, so that the caller waits for a bounded time
 * only. The thread is a daemon: one stuck in the system does not keep the program from ending.
 */
final class BoundedCalls {

  /** A call of the system. */
  @FunctionalInterface
  interface SystemCall {
    void run() throws IOException;
  }

  /** How long an idle thread is kept, in seconds. */
  private static final long IDLE_SECONDS = 5;

  private final ThreadPoolExecutor thread;

  BoundedCalls(String name) {
    thread =
        new ThreadPoolExecutor(
            1,
            1,
            IDLE_SECONDS,
            TimeUnit.SECONDS,
            new ArrayBlockingQueue<>(4),
            task -> {
              Thread made = new Thread(task, name);
              made.setDaemon(true);
              return made;
            });
    thread.allowCoreThreadTimeOut(true);
  }

  /**
   * Runs a call and waits for it.
   *
   * @return true when it ended in time; false when it still runs or was not begun
   * @throws IOException what the call threw, or when this thread was interrupted (the interrupt is
   *     kept)
   */
  boolean run(SystemCall call, Duration limit) throws IOException {
    FutureTask<Void> task =
        new FutureTask<>(
            () -> {
              call.run();
              return null;
            });
    try {
      thread.execute(task);
      task.get(limit.toNanos(), TimeUnit.NANOSECONDS);
      return true;
    } catch (TimeoutException | java.util.concurrent.RejectedExecutionException tooLong) {
      task.cancel(true);
      return false;
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IOException("the wait was interrupted", interrupted);
    } catch (ExecutionException failed) {
      throw new IOException(String.valueOf(failed.getCause().getMessage()), failed.getCause());
    }
  }

  void end() {
    thread.shutdownNow();
  }
}
