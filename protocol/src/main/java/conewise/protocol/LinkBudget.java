package conewise.protocol;

/**
 * What a record needs of the link and what it may have: four fifths of it.
 *
 * @param needs characters a second of the record's full blocks, rounded up
 * @param has four fifths of baud / 10 characters a second, rounded down
 */
public record LinkBudget(long needs, long has) {
  /**
   * The budget of a record on a jig.
   *
   * <p>needs = clock_hz x block characters / (tick_cycles x interval_ticks x block_frames);
   * specification, section 8.
   */
  public static LinkBudget of(JigIdentity identity, RecordShape shape) {
    long characters = identity.clock().clockHz() * shape.blockCharacters();
    long ticks = (long) identity.clock().tickCycles() * shape.intervalTicks() * shape.blockFrames();
    return new LinkBudget(
        Math.floorDiv(characters + ticks - 1, ticks), identity.link().baud() * 8L / 100);
  }

  /** Whether a jig accepts the record. */
  public boolean fits() {
    return needs <= has;
  }
}
