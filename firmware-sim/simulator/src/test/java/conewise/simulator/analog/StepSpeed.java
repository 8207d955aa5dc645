package conewise.simulator.analog;

import conewise.simulator.world.DemoWorld;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Locale;

/** Prints how many ticks a second the analog side takes; run by hand, judges nothing. */
public final class StepSpeed {
  private StepSpeed() {}

  /** Runs two million ticks of a two-driver vented box after as many for warming up. */
  public static void main(String[] arguments) {
    ThreadMXBean clock = ManagementFactory.getThreadMXBean();
    AnalogWorld world = DemoWorld.HERON.load().start();
    for (int round = 0; round < 4; round++) {
      long from = clock.getCurrentThreadCpuTime();
      int sum = 0;
      for (int k = 0; k < 1_000_000; k++) {
        world.tick(512 + k % 64);
        sum += world.convert(k % 2);
      }
      double seconds = (clock.getCurrentThreadCpuTime() - from) / 1e9;
      System.out.printf(
          Locale.ROOT, "%.2f million ticks/s of processor time (%d)%n", 1 / seconds, sum);
    }
  }
}
