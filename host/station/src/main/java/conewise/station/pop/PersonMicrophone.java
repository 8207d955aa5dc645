package conewise.station.pop;

import conewise.jig.step.StepRecord;
import conewise.station.answer.CommandFailure;

/** A jig whose microphone a person holds before one cone after another. */
public final class PersonMicrophone implements MicrophoneBench {
  private final PopPlan plan;
  private final PopTalk talk;
  private final Steps steps;

  /** A person at a jig. */
  public PersonMicrophone(PopPlan plan, PopTalk talk, Steps steps) {
    this.plan = plan;
    this.talk = talk;
    this.steps = steps;
  }

  @Override
  public StepRecord hear(String driver) throws CommandFailure {
    String side = plan.isMagnetOut(driver) ? "the magnet's side of the cone" : "the cone";
    talk.waitFor(
        "Hold the microphone still, 1 to 2 cm before the middle of "
            + side
            + " of driver "
            + driver
            + ", and keep quiet for four seconds.");
    return steps.heard(driver);
  }

  @Override
  public boolean again(String driver, String because) throws CommandFailure {
    return talk.wants("Driver " + driver + ": " + because);
  }
}
