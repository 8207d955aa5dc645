package conewise.jig.client;

import conewise.analysis.sampling.Capture;

/** Follows a record while it comes in. */
@FunctionalInterface
public interface RecordProgress {

  /** One that lets every record run to its end. */
  RecordProgress NONE = (frames, ofFrames) -> true;

  /**
   * Called with each block that comes, in order, before {@link #goOn}. Meanwhile the jig goes on
   * sending: a usual port's buffer of 4096 bytes is full after a tenth of a second, so be quick.
   *
   * @param piece what the block holds, on its true instants; the record may still turn out damaged
   */
  default void came(Capture piece) {}

  /**
   * Called with each block, and at least ten times a second while none comes.
   *
   * @param frames frames that have come
   * @param ofFrames frames that will come in all
   * @return false to give the record up
   */
  boolean goOn(int frames, int ofFrames);
}
