package conewise.simulator.jig;

/**
 * The jig's own sine: a quarter of a period in 257 entries with linear interpolation of 8 bits,
 * small enough for the flash of a board.
 */
final class SineShape implements WaveShape {
  private static final int QUARTER_BITS = 30;
  private static final int QUARTER_MASK = (1 << QUARTER_BITS) - 1;
  private static final int ENTRY_BITS = 22;
  private static final int FRACTION_BITS = 14;

  /** Entry 256 is the crest; one more stands behind it for the interpolation to look at. */
  private static final int[] QUARTER = quarter();

  private static int[] quarter() {
    int[] table = new int[258];
    for (int i = 0; i < table.length; i++) {
      table[i] = (int) Math.round(FULL_SCALE * StrictMath.sin(Math.PI / 2 * i / 256));
    }
    return table;
  }

  @Override
  public int at(int phase) {
    int quadrant = phase >>> QUARTER_BITS;
    int rising = phase & QUARTER_MASK;
    int within = (quadrant & 1) == 0 ? rising : (1 << QUARTER_BITS) - rising;
    int entry = within >>> ENTRY_BITS;
    int fraction = (within >>> FRACTION_BITS) & 0xFF;
    int value = QUARTER[entry] + (((QUARTER[entry + 1] - QUARTER[entry]) * fraction + 128) >> 8);
    return quadrant < 2 ? value : -value;
  }
}
