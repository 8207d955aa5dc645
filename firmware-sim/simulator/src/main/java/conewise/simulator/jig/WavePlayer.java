package conewise.simulator.jig;

/**
 * Plays one periodic wave around mid-scale, a drive code a tick.
 *
 * <p>The level is turned into a gain of 16 bits once, so that a tick costs one multiplication of 16
 * by 16 bits and a shift: |wave| at most 32512, gain at most 32961 (level 511), product below 2^31.
 */
final class WavePlayer {
  private static final int GAIN_BITS = 13;
  private static final int SHIFT = GAIN_BITS + 8;
  private static final WaveShape FLAT = phase -> 0;

  private final int midScale;
  private Kind kind = Kind.NONE;
  private WaveShape shape = FLAT;
  private int phase;
  private int step;
  private int gain;
  private int dc;
  private int peak;

  /** What plays, as {@code status} names it. */
  enum Kind {
    NONE,
    TONE,
    TABLE,
    DC
  }

  WavePlayer(int midScale) {
    this.midScale = midScale;
  }

  /** Starts a periodic wave at phase zero with the next drive code. */
  void start(Kind kind, WaveShape shape, int step, int level, int dc) {
    this.kind = kind;
    this.shape = shape;
    this.step = step;
    this.dc = dc;
    phase = 0;
    gain = ((level << GAIN_BITS) + 63) / 127;
    peak = level + Math.abs(dc);
  }

  /** Starts a constant drive. */
  void startDc(int dc) {
    start(Kind.DC, FLAT, 0, 0, dc);
  }

  /** The drive goes to mid-scale. */
  void stop() {
    start(Kind.NONE, FLAT, 0, 0, 0);
  }

  /** The code of this tick; the phase moves on by one step. */
  int nextCode() {
    int wave = (shape.at(phase) * gain + (1 << (SHIFT - 1))) >> SHIFT;
    phase += step;
    return midScale + dc + wave;
  }

  Kind kind() {
    return kind;
  }

  boolean plays() {
    return kind != Kind.NONE;
  }

  /** Level and size of the offset together; 0 when nothing plays. */
  int peak() {
    return peak;
  }
}
