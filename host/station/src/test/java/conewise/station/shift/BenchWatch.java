package conewise.station.shift;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;

/** Waits for what a bench says of itself. */
public record BenchWatch(Bench bench, long patienceSeconds) {
  /** Waits until the bench is as wanted. */
  public BenchState until(Predicate<BenchState> wanted) throws InterruptedException {
    return until(wanted, () -> {});
  }

  /** Has something done, then waits for what comes of it; what was there before is no answer. */
  BenchState after(Runnable order, Predicate<BenchState> wanted) throws InterruptedException {
    long before = bench.state().version();
    return until(state -> state.version() > before && wanted.test(state), order);
  }

  private BenchState until(Predicate<BenchState> wanted, Runnable order)
      throws InterruptedException {
    CountDownLatch there = new CountDownLatch(1);
    AtomicReference<BenchState> found = new AtomicReference<>();
    Runnable off =
        bench.watch(
            state -> {
              if (wanted.test(state) && found.compareAndSet(null, state)) {
                there.countDown();
              }
            });
    try {
      order.run();
      BenchState now = bench.state();
      if (wanted.test(now)) {
        return now;
      }
      assertTrue(
          there.await(patienceSeconds, TimeUnit.SECONDS), () -> "stands at " + bench.state());
      return found.get();
    } finally {
      off.run();
    }
  }
}
