package conewise.station.calibrating;

import conewise.jig.client.JigClient;
import conewise.station.answer.CommandFailure;

/** What lies between a jig's clips, and how it comes to lie there. */
public interface Clips {

  /**
   * Has something done between the clips, then measures.
   *
   * @param instruction what a person is to do, one sentence
   * @param step what will lie there
   * @param measuring what to do then with the jig
   * @return what it gave
   * @throws CommandFailure when the jig fails, or nobody is there to do it
   */
  <T> T then(String instruction, CalibrationStep step, Measuring<T> measuring)
      throws CommandFailure;

  /** Tells a person that what was read is something else. */
  void refused(String sentence);

  /** What is done with a jig whose clips are ready. */
  @FunctionalInterface
  interface Measuring<T> {
    /** Measures. */
    T with(JigClient client) throws CommandFailure;
  }
}
