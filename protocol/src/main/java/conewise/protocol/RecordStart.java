package conewise.protocol;

/**
 * The answer to {@code record}.
 *
 * @param recordId 1 to 255
 * @param firstTick the tick of the first frame sent, modulo 2^32
 * @param intervalTicks ticks from one frame sent to the next, at least 1
 * @param blockFrames frames of each block but perhaps the last, 1 to 64
 * @param digits characters a value, 2 or 3
 */
public record RecordStart(
    int recordId, long firstTick, int intervalTicks, int blockFrames, int digits) {
  /**
   * Reads the answer.
   *
   * @throws FieldProblem if a field is absent or wrong
   */
  public static RecordStart from(Accepted reply) {
    Fields fields = reply.fields();
    return new RecordStart(
        fields.integer("record", 1, 255),
        fields.whole("first_tick", 0, PlayStart.TICK_MAX),
        fields.integer("interval_ticks", 1, Integer.MAX_VALUE),
        fields.integer("block_frames", 1, Block.DATA_MAX / 2),
        fields.integer("digits", 2, 3));
  }

  /** The answer under a tag. */
  public Accepted toReply(int tag) {
    return new Accepted(
        tag,
        Fields.NONE
            .with("record", recordId)
            .with("first_tick", firstTick)
            .with("interval_ticks", intervalTicks)
            .with("block_frames", blockFrames)
            .with("digits", digits));
  }
}
