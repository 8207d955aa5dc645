package conewise.station.calculation;

/** Something that was entered is not as it must be. The message is one sentence for people. */
public final class BadEntryException extends Exception {
  private static final long serialVersionUID = 1L;

  BadEntryException(String sentence) {
    super(sentence);
  }
}
