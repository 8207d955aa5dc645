package conewise.jig.client;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.protocol.JigIdentity;
import conewise.protocol.RecordStart;
import java.util.List;
import java.util.Optional;

/** Turns the codes of a record into volt and ampere on their true instants. */
final class Scaling {

  /** Jigs whose tick counter wraps do so at 32 bits. */
  private static final long TICK_WRAP = 1L << 32;

  private final JigIdentity identity;
  private final RecordOrder order;
  private final RecordStart start;
  private final long phaseZeroTick;

  Scaling(JigIdentity identity, RecordOrder order, RecordStart start, long phaseZeroTick) {
    this.identity = identity;
    this.order = order;
    this.start = start;
    this.phaseZeroTick = phaseZeroTick;
  }

  Recording recording(int[][] values, List<Integer> low, List<Integer> high) {
    Optional<SampledChannel> third =
        order.channels() == 3
            ? Optional.of(channel(2, values[2], 0, order.frames()))
            : Optional.empty();
    return new Recording(
        capture(values, 0, order.frames()), third, low, high, identity.converter().codes());
  }

  /** Voltage and current of the frames from one to before another. */
  Capture capture(int[][] values, int from, int to) {
    return new Capture(channel(0, values[0], from, to), channel(1, values[1], from, to));
  }

  /** unit = (code - offset_code) x per_code; a sum of d codes stands for d times its mean. */
  private SampledChannel channel(int number, int[] sums, int from, int to) {
    JigIdentity.Channel stated = identity.channels().get(number);
    double[] units = new double[to - from];
    for (int k = from; k < to; k++) {
      units[k - from] = unit(stated, sums[k] / (double) order.decimate());
    }
    double oneRail = unit(stated, 0);
    double otherRail = unit(stated, identity.converter().codes() - 1);
    double intervalSeconds = start.intervalTicks() * identity.tickSeconds();
    return new SampledChannel(
        units,
        firstInstantSeconds() + stated.delaySeconds() + from * intervalSeconds,
        intervalSeconds,
        Math.min(oneRail, otherRail),
        Math.max(oneRail, otherRail));
  }

  private static double unit(JigIdentity.Channel stated, double code) {
    return (code - stated.offsetCode()) * stated.perCode();
  }

  /** A sum stands for the middle of the frames in it: (d - 1)/2 of their spacing later. */
  private double firstInstantSeconds() {
    long ticks = start.firstTick() - phaseZeroTick;
    if (ticks < 0) {
      ticks += TICK_WRAP;
    }
    double d = order.decimate();
    return (ticks + (d - 1) / 2 * start.intervalTicks() / d) * identity.tickSeconds();
  }
}
