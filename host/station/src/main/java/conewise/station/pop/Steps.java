package conewise.station.pop;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordProgress;
import conewise.jig.step.StepDrive;
import conewise.jig.step.StepRecord;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.StopRequest;

/** Steps on a jig, with progress and an ear for the wish to stop. */
public final class Steps {
  private final JigClient client;
  private final ProgressLine progress;
  private final StopRequest stop;

  /** Steps on a jig. */
  public Steps(JigClient client, ProgressLine progress, StopRequest stop) {
    this.client = client;
    this.progress = progress;
    this.stop = stop;
  }

  /** One step, for eyes. */
  public StepRecord once() throws CommandFailure {
    return run(StepDrive::once, "driving a step");
  }

  /** Several steps, heard. */
  public StepRecord heard(String driver) throws CommandFailure {
    return run(StepDrive::heard, "hearing driver " + driver);
  }

  /** True when something that moves is on the jig's third channel. */
  public boolean microphoneIsThere() throws CommandFailure {
    return run(StepDrive::microphoneIsThere, "listening for a microphone");
  }

  /** Those of a lost session tell of a sweep that can be taken up again; a pop test cannot. */
  private static String nextStep(JigFault fault) {
    if (fault instanceof JigFault.LinkLost || fault instanceof JigFault.SessionLost) {
      return "Check the cable and the supply, and start over.";
    }
    return fault instanceof JigFault.Cancelled ? "Start over." : fault.nextStep();
  }

  private interface Task<T> {
    T of(StepDrive test) throws JigFaultException;
  }

  private <T> T run(Task<T> task, String what) throws CommandFailure {
    RecordProgress following =
        (frames, of) -> {
          progress.show((double) frames / of, what);
          return !stop.asked();
        };
    try {
      return task.of(new StepDrive(client, following));
    } catch (JigFaultException failed) {
      JigFault fault = failed.fault();
      boolean gone = fault instanceof JigFault.LinkLost || fault instanceof JigFault.NoAnswer;
      throw new CommandFailure(
          gone ? ExitCode.NO_JIG : ExitCode.NOT_JUDGED,
          fault.sentence() + " Of this pop test nothing was kept. " + nextStep(fault),
          failed);
    } finally {
      progress.wipe();
    }
  }
}
