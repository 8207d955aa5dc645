package conewise.simulator.jig;

/** One period of a wave, as a function of a 32-bit phase. */
interface WaveShape {
  /** What stands for 1: the highest point of a table, 127, with 8 bits behind it. */
  int FULL_SCALE = 127 << 8;

  /**
   * The wave at a phase.
   *
   * @param phase 0 to 2^32 - 1 in an int, read as unsigned; 2^32 is one period
   * @return -{@link #FULL_SCALE} to {@link #FULL_SCALE}
   */
  int at(int phase);
}
