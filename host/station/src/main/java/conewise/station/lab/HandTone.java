package conewise.station.lab;

/**
 * A tone whose period is so many ticks of the jig that sixteen samples of each channel make it up:
 * few enough for a pencil.
 *
 * @param ticks ticks in a period, a power of two from 64
 */
record HandTone(int ticks) {
  /** Samples of each channel in a period. */
  static final int SAMPLES = 16;

  private static final int TICKS_A_FRAME = 2;
  private static final int LEAST = 64;

  /** About 30.5 Hz on a jig of 64 us ticks. */
  static final HandTone LOW = new HandTone(512);

  /** About 61 Hz. */
  static final HandTone MIDDLE = new HandTone(256);

  /** About 244 Hz. */
  static final HandTone HIGH = new HandTone(64);

  HandTone {
    if (Integer.bitCount(ticks) != 1 || ticks < LEAST) {
      throw new IllegalArgumentException(
          "a period of " + ticks + " ticks; it must be a power of two from " + LEAST);
    }
  }

  /** What the jig's 32-bit phase gains each tick. */
  long step() {
    return (1L << 32) / ticks;
  }

  /** How many frames the jig adds up for each sample. */
  int decimate() {
    return ticks / TICKS_A_FRAME / SAMPLES;
  }

  double hz(double tickSeconds) {
    return 1 / (ticks * tickSeconds);
  }
}
