package conewise.station.shift;

/** A result could not be kept; the message is a sentence for people. */
public final class KeepingException extends Exception {
  private static final long serialVersionUID = 1L;

  /** With the sentence. */
  public KeepingException(String sentence, Throwable cause) {
    super(sentence, cause);
  }
}
