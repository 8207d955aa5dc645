package conewise.station.records;

/** The records cannot be read or written; the message is one sentence for people. */
public final class RecordsException extends Exception {
  private static final long serialVersionUID = 1L;

  /** What kind of trouble. */
  public enum Kind {
    /** What was to be kept is not kept: disk full, no rights, server gone. */
    NOT_WRITTEN,
    /** What is there cannot be read, or is no records. */
    NOT_READ
  }

  private final Kind kind;

  /**
   * A trouble.
   *
   * @param kind which
   * @param sentence what, where, and what to do
   */
  public RecordsException(Kind kind, String sentence) {
    super(sentence);
    this.kind = kind;
  }

  /** The same with what lies beneath; it is never shown. */
  public RecordsException(Kind kind, String sentence, Throwable cause) {
    super(sentence, cause);
    this.kind = kind;
  }

  /** Which kind. */
  public Kind kind() {
    return kind;
  }
}
