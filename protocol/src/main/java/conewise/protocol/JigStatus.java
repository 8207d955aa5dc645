package conewise.protocol;

/**
 * The answer to {@code status}.
 *
 * @param tick now, modulo 2^32
 * @param wave none, tone, table or dc
 * @param recordId the record that runs, 0 for none
 * @param footDown whether the foot switch is down
 * @param clippedFrames frames with a code at either end of the converter
 * @param damagedLines requests that were damaged, too long or not text
 * @param refusedRequests requests refused for anything else
 * @param overruns records ended because the link fell behind
 * @param halts times the jig halted by itself
 */
public record JigStatus(
    long tick,
    String wave,
    int recordId,
    boolean footDown,
    long clippedFrames,
    long damagedLines,
    long refusedRequests,
    long overruns,
    long halts) {
  private static final long COUNT_MAX = 99_999_999;

  /**
   * Reads the answer.
   *
   * @throws FieldProblem if a field is absent or wrong
   */
  public static JigStatus from(Accepted reply) {
    Fields fields = reply.fields();
    return new JigStatus(
        fields.whole("tick", 0, PlayStart.TICK_MAX),
        fields.word("wave", "none", "tone", "table", "dc"),
        fields.integer("recording", 0, 255),
        fields.word("foot", "up", "down").equals("down"),
        fields.whole("clipped", 0, COUNT_MAX),
        fields.whole("damaged", 0, COUNT_MAX),
        fields.whole("refused", 0, COUNT_MAX),
        fields.whole("overruns", 0, COUNT_MAX),
        fields.whole("halts", 0, COUNT_MAX));
  }

  /** The answer under a tag; counters stop at 99999999. */
  public Accepted toReply(int tag) {
    return new Accepted(
        tag,
        Fields.NONE
            .with("tick", tick)
            .with("wave", wave)
            .with("recording", recordId)
            .with("foot", footDown ? "down" : "up")
            .with("clipped", Math.min(clippedFrames, COUNT_MAX))
            .with("damaged", Math.min(damagedLines, COUNT_MAX))
            .with("refused", Math.min(refusedRequests, COUNT_MAX))
            .with("overruns", Math.min(overruns, COUNT_MAX))
            .with("halts", Math.min(halts, COUNT_MAX)));
  }
}
