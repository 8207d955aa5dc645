package conewise.analysis.excitation;

import java.util.ArrayList;
import java.util.List;

/**
 * A comb of tones that a jig plays from its wave table: whole multiples of one base frequency, of
 * equal strength at the terminals' bridge, with phases chosen so that the peak stays low.
 *
 * <p>Lines are dense where boxes bend (every multiple of about 1 Hz from 10 to 100 Hz) and sparser
 * above. Some multiples are left silent on purpose: those nearest to mains frequencies and their
 * harmonics, and one in {@value #SILENT_EVERY} of the dense ones, so that hum, noise and
 * nonlinearity can be seen between the lines.
 *
 * @param basePeriodSeconds the period of the wave in seconds, positive
 * @param lines the multiples of the base frequency that are played, rising, each at least 1 and
 *     below half the number of table points
 * @param table one period of the wave for the jig's table: a power of two of points, -127 to 127;
 *     not copied, not to be written to
 * @param crestFactor the peak of the table over its effective value; a sine has the root of 2
 */
@SuppressWarnings("ArrayRecordComponent") // nobody compares combs
public record Comb(
    double basePeriodSeconds, List<Integer> lines, byte[] table, double crestFactor) {

  /** Ticks in the standard comb's period: a power of two, so that the jig's step is whole. */
  public static final int STANDARD_PERIOD_TICKS = 16384;

  /** Points of the standard comb's table. */
  public static final int STANDARD_TABLE_POINTS = 1024;

  /** One dense multiple in this many is left silent. */
  static final int SILENT_EVERY = 8;

  private static final double LOWEST_HZ = 10;
  private static final double DENSE_UP_TO_HZ = 100;
  private static final double HIGHEST_HZ = 400;

  private static final double STRONG_HUM_UP_TO_HZ = 310;

  /** Above the dense part, each line stands this much above the one before. */
  private static final double SPARSE_RATIO = 1.036;

  public Comb {
    lines = List.copyOf(lines);
    if (!(basePeriodSeconds > 0) || Double.isInfinite(basePeriodSeconds)) {
      throw new IllegalArgumentException(
          "the base period is " + basePeriodSeconds + " s; it must be positive and finite");
    }
    if (Integer.bitCount(table.length) != 1 || table.length < 16) {
      throw new IllegalArgumentException(
          "the table has " + table.length + " points; it must have a power of two, 16 or more");
    }
    int before = 0;
    for (int line : lines) {
      if (line <= before || 2 * line >= table.length) {
        throw new IllegalArgumentException(
            "line "
                + line
                + " after "
                + before
                + ": lines must rise from 1 and stay below "
                + table.length / 2);
      }
      before = line;
    }
  }

  /** The comb for a jig whose tick is 64 microseconds: a period of 1.048576 s. */
  public static Comb standard() {
    return Standard.COMB;
  }

  /**
   * Designs a comb for 10 to 400 Hz. The result depends on nothing but the arguments.
   *
   * @param tickSeconds the jig's tick in seconds
   * @param periodTicks ticks in one period, a power of two, such that the period is about 1 s
   * @param tablePoints points of the jig's table, a power of two, at least 1024 for a period of 1 s
   * @param seed seeds the choice among phases
   */
  public static Comb design(double tickSeconds, int periodTicks, int tablePoints, long seed) {
    if (periodTicks <= 0 || Integer.bitCount(periodTicks) != 1) {
      throw new IllegalArgumentException(
          "the period is " + periodTicks + " ticks; it must be a power of two");
    }
    double period = tickSeconds * periodTicks;
    return design(period, linesFor(period), tablePoints, seed);
  }

  /** Designs a comb with lines of one's own. */
  public static Comb design(
      double basePeriodSeconds, List<Integer> lines, int tablePoints, long seed) {
    CrestReduction reduction = new CrestReduction(lines, tablePoints, seed);
    double[] wave = reduction.wave();
    double peak = 0;
    for (double value : wave) {
      peak = Math.max(peak, Math.abs(value));
    }
    byte[] table = new byte[tablePoints];
    double squares = 0;
    for (int i = 0; i < tablePoints; i++) {
      table[i] = (byte) Math.rint(127 * wave[i] / peak);
      squares += table[i] * (double) table[i];
    }
    return new Comb(basePeriodSeconds, lines, table, 127 / Math.sqrt(squares / tablePoints));
  }

  /** The lowest step of frequency between lines, in hertz. */
  public double baseHz() {
    return 1 / basePeriodSeconds;
  }

  /** The frequencies played, in hertz, rising. */
  public double[] frequenciesHz() {
    return lines.stream().mapToDouble(line -> line / basePeriodSeconds).toArray();
  }

  /**
   * What a jig's 32-bit phase gains each tick so that this comb repeats once in its base period.
   *
   * @param tickSeconds the jig's tick in seconds
   */
  public long step(double tickSeconds) {
    return Math.round(0x1p32 * tickSeconds / basePeriodSeconds);
  }

  private static List<Integer> linesFor(double periodSeconds) {
    List<Integer> lines = new ArrayList<>();
    int dense = 0;
    int line = (int) Math.floor(LOWEST_HZ * periodSeconds);
    for (; line <= DENSE_UP_TO_HZ * periodSeconds; line++) {
      dense++;
      if (dense % SILENT_EVERY != 0 && !isNextToMains(line / periodSeconds)) {
        lines.add(line);
      }
    }
    double sparse = line;
    int last = (int) Math.ceil(HIGHEST_HZ * periodSeconds);
    while (line < last) {
      if (!isNextToMains(line / periodSeconds)) {
        lines.add(line);
        sparse = Math.max(sparse * SPARSE_RATIO, line + 1);
      } else {
        sparse = line + 1;
      }
      line = (int) Math.round(sparse);
    }
    lines.add(last);
    return lines;
  }

  /** True within a line's width of a multiple of 50 or 60 Hz, as far up as these are strong. */
  private static boolean isNextToMains(double frequencyHz) {
    if (frequencyHz > STRONG_HUM_UP_TO_HZ) {
      return false;
    }
    double from50 = Math.abs(frequencyHz - 50 * Math.rint(frequencyHz / 50));
    double from60 = Math.abs(frequencyHz - 60 * Math.rint(frequencyHz / 60));
    return Math.min(from50, from60) < 0.6;
  }

  /** Designed once, when first asked for. */
  private static final class Standard {
    private static final Comb COMB = design(64e-6, STANDARD_PERIOD_TICKS, STANDARD_TABLE_POINTS, 1);
  }
}
