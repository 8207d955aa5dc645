package conewise.station.calibrating;

import conewise.jig.client.JigClient;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import java.io.PrintStream;
import java.util.function.BooleanSupplier;

/** Clips that a person opens, joins and puts on a resistor when told to. */
public final class PersonClips implements Clips {
  private final JigClient client;
  private final PrintStream out;
  private final BooleanSupplier enter;
  private final ProgressLine progress;

  /**
   * Clips in a person's hands.
   *
   * @param client the jig
   * @param out where instructions go
   * @param enter waits for a person to press Enter; false when nobody will any more
   */
  public PersonClips(
      JigClient client, PrintStream out, BooleanSupplier enter, ProgressLine progress) {
    this.client = client;
    this.out = out;
    this.enter = enter;
    this.progress = progress;
  }

  @Override
  public <T> T then(String instruction, CalibrationStep step, Measuring<T> measuring)
      throws CommandFailure {
    progress.wipe();
    out.println(instruction + " Then press Enter.");
    if (!enter.getAsBoolean()) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "This was left before its end; nothing was kept. It needs somebody who can press Enter.");
    }
    return measuring.with(client);
  }

  @Override
  public void refused(String sentence) {
    progress.wipe();
    out.println(sentence);
  }
}
