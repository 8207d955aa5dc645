package conewise.station.calculation;

import java.util.Optional;

/** Something that was entered is not as it must be. The message is one sentence for people. */
public final class BadEntryException extends Exception {
  private static final long serialVersionUID = 1L;

  private final String entry;

  /** Of no entry that there is. */
  BadEntryException(String sentence) {
    super(sentence);
    this.entry = "";
  }

  /** Of an entry, or of several of which this is the first. */
  BadEntryException(Entry entry, String sentence) {
    super(sentence);
    this.entry = entry.name();
  }

  /** The name of the entry that is to be mended, where it is one that is asked for. */
  public Optional<String> entry() {
    return entry.isEmpty() ? Optional.empty() : Optional.of(entry);
  }
}
