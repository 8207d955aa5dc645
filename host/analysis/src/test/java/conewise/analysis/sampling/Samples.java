package conewise.analysis.sampling;

import conewise.analysis.outcome.Outcome;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

/** Channels sampled straight from functions of time. */
public final class Samples {

  private Samples() {}

  /** A function of time in seconds, sampled at equal spacing. */
  public static SampledChannel of(
      DoubleUnaryOperator signal, int count, double firstInstantSeconds, double intervalSeconds) {
    double[] values = new double[count];
    for (int k = 0; k < count; k++) {
      values[k] = signal.applyAsDouble(firstInstantSeconds + k * intervalSeconds);
    }
    return SampledChannel.of(values, firstInstantSeconds, intervalSeconds);
  }

  /** The same channel with white Gaussian noise added. */
  public static SampledChannel noisy(SampledChannel channel, double deviation, Random random) {
    double[] values = channel.values().clone();
    for (int k = 0; k < values.length; k++) {
      values[k] += deviation * random.nextGaussian();
    }
    return SampledChannel.of(values, channel.firstInstantSeconds(), channel.intervalSeconds());
  }

  /** The value found; fails with the reason when there is none. */
  public static <T> T found(Outcome<T> outcome) {
    if (outcome instanceof Outcome.Found<T> found) {
      return found.value();
    }
    throw new AssertionError("no result: " + because(outcome));
  }

  /** The reason for no result; fails when there is a value. */
  public static <T> String because(Outcome<T> outcome) {
    if (outcome instanceof Outcome.NoResult<T> none) {
      return none.because();
    }
    throw new AssertionError("a result where none was expected: " + outcome);
  }
}
