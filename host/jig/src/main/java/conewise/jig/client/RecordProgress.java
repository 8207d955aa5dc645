package conewise.jig.client;

/** Follows a record while it comes in. */
@FunctionalInterface
public interface RecordProgress {

  /** One that lets every record run to its end. */
  RecordProgress NONE = (frames, ofFrames) -> true;

  /**
   * Called with each block, and at least ten times a second while none comes.
   *
   * @param frames frames that have come
   * @param ofFrames frames that will come in all
   * @return false to give the record up
   */
  boolean goOn(int frames, int ofFrames);
}
