package conewise.station.calibrating;

import conewise.jig.client.JigClient;
import conewise.jig.sweep.SweepResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.StopRequest;
import java.io.PrintStream;
import java.util.function.BooleanSupplier;

/** A jig whose clips a person opens, joins and puts on a resistor when told to. */
public final class PersonBench implements Calibrating.Bench {
  private final JigClient client;
  private final PrintStream out;
  private final BooleanSupplier enter;
  private final ProgressLine progress;
  private final StopRequest stop;

  /**
   * A bench.
   *
   * @param client the jig
   * @param out where instructions go
   * @param enter waits for a person to press Enter; false when nobody will any more
   */
  public PersonBench(
      JigClient client,
      PrintStream out,
      BooleanSupplier enter,
      ProgressLine progress,
      StopRequest stop) {
    this.client = client;
    this.out = out;
    this.enter = enter;
    this.progress = progress;
    this.stop = stop;
  }

  @Override
  public SweepResult sweep(CalibrationStep step) throws CommandFailure {
    progress.wipe();
    out.println(step.instruction() + " Then press Enter.");
    if (!enter.getAsBoolean()) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, "The calibration was left before its end; nothing was kept.");
    }
    return VirtualBench.sweep(client, progress, stop);
  }

  @Override
  public void refused(CalibrationStep step, String sentence) {
    progress.wipe();
    out.println(sentence);
  }
}
