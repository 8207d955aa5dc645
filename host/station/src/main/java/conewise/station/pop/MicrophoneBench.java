package conewise.station.pop;

import conewise.jig.step.StepRecord;
import conewise.station.answer.CommandFailure;

/** Where a microphone is held before one cone after another. */
public interface MicrophoneBench {

  /**
   * Has the microphone held before a driver and drives steps.
   *
   * @throws CommandFailure when the jig fails, or nobody is there to hold it
   */
  StepRecord hear(String driver) throws CommandFailure;

  /**
   * Tells that a driver gave no result.
   *
   * @return true when it shall be heard again
   * @throws CommandFailure when nobody is there to say
   */
  boolean again(String driver, String because) throws CommandFailure;
}
