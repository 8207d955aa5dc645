package conewise.station.calibrating;

import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import java.util.Optional;

/** A virtual jig whose clips this program itself opens, joins and puts on a resistor. */
public final class VirtualBench implements Calibrating.Bench {

  /** The short is a piece of thick wire. */
  private static final double SHORT_OHM = 0.0005;

  private static final double OPEN_OHM = 1e7;

  private final World world;
  private final double resistorOhm;
  private final ProgressLine progress;
  private final StopRequest stop;

  /**
   * A bench.
   *
   * @param world whose jig is meant; its box is taken off
   * @param resistorOhm what the known resistor is
   */
  public VirtualBench(World world, double resistorOhm, ProgressLine progress, StopRequest stop) {
    this.world = world;
    this.resistorOhm = resistorOhm;
    this.progress = progress;
    this.stop = stop;
  }

  @Override
  public SweepResult sweep(CalibrationStep step) throws CommandFailure {
    double ohm =
        switch (step) {
          case OPEN -> OPEN_OHM;
          case SHORT -> SHORT_OHM;
          case RESISTOR -> resistorOhm;
        };
    World loaded = world.with(Box.load(new Wiring.Resistance(ohm)));
    try (JigClient client = new JigChoice.Virtual(loaded).connect(progress)) {
      return sweep(client, progress, stop);
    }
  }

  @Override
  public void refused(CalibrationStep step, String sentence) {
    // Nobody is there to do it otherwise; the last refusal ends the calibration with its sentence.
  }

  /** A quick sweep without a look at the bench. */
  static SweepResult sweep(JigClient client, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    SweepOutcome outcome =
        new SweepRun(SweepKind.QUICK, SweepSettings.standard().withoutSelfCheck(), Optional.empty())
            .run(client, progress, stop);
    if (outcome instanceof Interrupted interrupted) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, interrupted.because() + " " + interrupted.nextStep());
    }
    return (SweepResult) outcome;
  }
}
