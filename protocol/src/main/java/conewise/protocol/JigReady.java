package conewise.protocol;

/**
 * The pushed line that begins a session; a later one means that the session was lost.
 *
 * @param cause power, reset, brown-out or watchdog
 * @param protocol version of the protocol, at least 1
 * @param firmware version of the firmware
 * @param board name of the board
 */
public record JigReady(String cause, int protocol, String firmware, String board) {
  /** The event of such a line. */
  public static final String EVENT = "ready";

  /**
   * Reads the pushed line.
   *
   * @throws FieldProblem if a field is absent or wrong
   * @throws IllegalArgumentException if the event is another
   */
  public static JigReady from(Pushed pushed) {
    if (!pushed.event().equals(EVENT)) {
      throw new IllegalArgumentException(
          "a session begins with " + EVENT + ", not with " + pushed.event());
    }
    Fields fields = pushed.fields();
    return new JigReady(
        fields.word("cause", "power", "reset", "brown-out", "watchdog"),
        fields.integer("protocol", 1, Integer.MAX_VALUE),
        fields.text("firmware"),
        fields.text("board"));
  }

  /** The line to push. */
  public Pushed toPushed() {
    return new Pushed(
        EVENT,
        Fields.of("cause", cause)
            .with("protocol", protocol)
            .with("firmware", firmware)
            .with("board", board));
  }
}
