package conewise.station.page;

import conewise.station.shift.Bench;
import conewise.station.shift.BenchState;
import io.javalin.http.sse.SseClient;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;

/**
 * Sends a bench's snapshots to every open page: the latest one, at most some times a second, so
 * that a slow page never holds the bench up.
 */
final class StateStream implements AutoCloseable {
  private static final long BETWEEN_MILLIS = 120;
  private static final int BEATS_BETWEEN_SIGNS = 100;

  private final Bench bench;
  private final Function<BenchState, String> writer;
  private final Set<SseClient> pages = ConcurrentHashMap.newKeySet();
  private final ScheduledExecutorService beat =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "page-stream");
            thread.setDaemon(true);
            return thread;
          });
  private final Future<?> sending;
  private long sent = -1;
  private int quiet;

  StateStream(Bench bench, Function<BenchState, String> writer) {
    this.bench = bench;
    this.writer = writer;
    sending =
        beat.scheduleWithFixedDelay(
            this::send, BETWEEN_MILLIS, BETWEEN_MILLIS, TimeUnit.MILLISECONDS);
  }

  void join(SseClient page) {
    page.keepAlive();
    page.onClose(() -> pages.remove(page));
    page.sendEvent("bench", writer.apply(bench.state()));
    pages.add(page);
  }

  private void send() {
    BenchState state = bench.state();
    quiet++;
    if (state.version() != sent) {
      String text = writer.apply(state);
      pages.forEach(page -> page.sendEvent("bench", text));
      sent = state.version();
      quiet = 0;
    } else if (quiet >= BEATS_BETWEEN_SIGNS) {
      pages.forEach(page -> page.sendEvent("beat", "still here"));
      quiet = 0;
    }
  }

  @Override
  public void close() {
    sending.cancel(true);
    beat.shutdownNow();
    pages.forEach(SseClient::close);
  }
}
