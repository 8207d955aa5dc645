package conewise.protocol;

/**
 * The answer to {@code play}.
 *
 * @param step what the phase gains each tick, 0 to 2147483647 of 2^32
 * @param tick the tick of phase zero, modulo 2^32
 */
public record PlayStart(long step, long tick) {
  static final long TICK_MAX = 0xFFFF_FFFFL;

  /**
   * Reads the answer.
   *
   * @throws FieldProblem if a field is absent or wrong
   */
  public static PlayStart from(Accepted reply) {
    Fields fields = reply.fields();
    return new PlayStart(
        fields.whole("step", 0, Integer.MAX_VALUE), fields.whole("tick", 0, TICK_MAX));
  }

  /** The answer under a tag. */
  public Accepted toReply(int tag) {
    return new Accepted(tag, Fields.NONE.with("step", step).with("tick", tick));
  }
}
