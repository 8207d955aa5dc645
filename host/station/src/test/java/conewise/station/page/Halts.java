package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertNotNull;

import conewise.jig.sweep.CurveSoFar;
import conewise.station.shift.Bench;
import conewise.station.shift.BenchState;
import conewise.station.shift.Phase;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/**
 * Halts a bench on a virtual jig, whose time stands still meanwhile, at each snapshot whose curve
 * is another than before, and at the verdict, so that somebody can look at it.
 */
final class Halts implements AutoCloseable {
  private static final long PATIENCE_SECONDS = 60;

  private final BlockingQueue<BenchState> halted = new LinkedBlockingQueue<>();
  private final Semaphore goOn = new Semaphore(0);
  private final Runnable off;
  private Object before = "";

  Halts(Bench bench) {
    off = bench.watch(this::look);
  }

  private void look(BenchState state) {
    Object now = state.phase() == Phase.VERDICT ? Phase.VERDICT : curve(state);
    boolean sweeps = state.phase() == Phase.MEASURING || state.phase() == Phase.JUDGING;
    if ((sweeps || state.phase() == Phase.VERDICT) && !now.equals(before)) {
      before = now;
      halted.add(state);
      goOn.acquireUninterruptibly();
    }
  }

  private static CurveSoFar curve(BenchState state) {
    return state.box().map(BenchState.OnBench::soFar).orElse(CurveSoFar.NONE);
  }

  /** Waits for the next halt; the bench stands until {@link #goOn}. */
  BenchState next() throws InterruptedException {
    BenchState state = halted.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
    assertNotNull(state, "no other curve came in " + PATIENCE_SECONDS + " s");
    return state;
  }

  void goOn() {
    goOn.release();
  }

  /** Lets the bench run for good. */
  @Override
  public void close() {
    off.run();
    goOn.release(1_000_000);
  }
}
