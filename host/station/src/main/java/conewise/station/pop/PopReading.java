package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.polarity.FirstHalfCycle;
import java.util.Optional;

/**
 * What one cone did.
 *
 * @param driver its name
 * @param expected what a right one does
 * @param seen what it did, or why that is not known
 * @param heard what a microphone heard of it
 */
public record PopReading(
    String driver, Motion expected, Outcome<Motion> seen, Optional<FirstHalfCycle> heard) {

  /** True when it is known to do what it should. */
  public boolean isRight() {
    return seen instanceof Found<Motion> found && found.value() == expected;
  }

  /** True when it is known to do something else. */
  public boolean isWrong() {
    return seen instanceof Found<Motion> && !isRight();
  }

  /** In one line, for people. */
  public String sentence() {
    if (seen instanceof NoResult<Motion> none) {
      return "driver " + driver + ": no result. " + none.because();
    }
    Motion motion = ((Found<Motion>) seen).value();
    String right = isRight() ? "right" : "WRONG, it should be " + MotionWords.of(expected);
    return "driver " + driver + ": " + MotionWords.of(motion) + ", " + right;
  }
}
