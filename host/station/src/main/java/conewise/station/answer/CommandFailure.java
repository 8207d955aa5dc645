package conewise.station.answer;

/** Why a command came to no answer: a sentence for people and a code for programs. */
public final class CommandFailure extends Exception {
  private static final long serialVersionUID = 1L;

  private final ExitCode exitCode;

  /**
   * A failure without a deeper cause.
   *
   * @param exitCode what the process hands back
   * @param sentence what, where, the value and the limit, what to do
   */
  public CommandFailure(ExitCode exitCode, String sentence) {
    super(sentence);
    this.exitCode = exitCode;
  }

  /**
   * A failure with its cause.
   *
   * @param exitCode what the process hands back
   * @param sentence what, where, the value and the limit, what to do
   * @param cause what lies beneath; never shown
   */
  public CommandFailure(ExitCode exitCode, String sentence, Throwable cause) {
    super(sentence, cause);
    this.exitCode = exitCode;
  }

  /** What the process hands back. */
  public ExitCode exitCode() {
    return exitCode;
  }
}
