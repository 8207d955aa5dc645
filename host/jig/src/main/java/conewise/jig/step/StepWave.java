package conewise.jig.step;

import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.Wave;
import conewise.protocol.JigIdentity;
import conewise.protocol.WavePoints;
import java.util.Arrays;
import java.util.Locale;

/**
 * Rest, a step of {@value #ON_SECONDS} s, rest, as a periodic wave. So the jig itself ends each
 * step, also when nobody is left to ask for it. 0.3 and 0.75 s hold whole periods of 50 and of 60
 * Hz: what hum adds to a step upward it takes from one downward, or turns round at the next.
 */
final class StepWave {
  static final double PERIOD_SECONDS = 0.75;
  static final double ON_SECONDS = 0.3;

  private static final byte FULL = 127;

  /** The jig draws a line from point to point: a step takes that long. */
  private static final double LONGEST_RAMP_SECONDS = 1e-3;

  private static final int MOST_POINTS = 1024;

  private StepWave() {}

  /** The points of one period, for the jig's table. */
  static byte[] table(JigIdentity jig) throws JigFaultException {
    int points = Integer.highestOneBit(Math.min(MOST_POINTS, jig.wave().pointsMax()));
    if (PERIOD_SECONDS / points > LONGEST_RAMP_SECONDS) {
      throw new JigFaultException(
          new JigFault.Unsuited(
              String.format(
                  Locale.ROOT,
                  "The jig's table holds %d points, in which a step would take %.1f ms; %.0f ms is"
                      + " the most.",
                  points,
                  1000 * PERIOD_SECONDS / points,
                  1000 * LONGEST_RAMP_SECONDS),
              "Use a board with more memory, or a battery for the pop test."));
    }
    byte[] table = new byte[points];
    int on = (int) Math.round(points * ON_SECONDS / PERIOD_SECONDS);
    int from = (points - on) / 2;
    Arrays.fill(table, from, from + on, FULL);
    return table;
  }

  static Wave.Table wave(JigIdentity jig, byte[] table, int level) {
    long step = Math.round(jig.tickSeconds() / PERIOD_SECONDS * 0x1p32);
    return new Wave.Table(table.length, step, level, WavePoints.checksum(table, table.length));
  }
}
