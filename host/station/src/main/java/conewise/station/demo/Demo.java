package conewise.station.demo;

import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.VirtualClips;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.planfile.PlannedBoxFile;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Measures the workshop's boxes one after another on one virtual jig with parts of 5 %, calibrated
 * by open clips, a short and a resistor, all through the wire protocol, and judges each. The judge
 * knows the plans; it is never told the truth.
 */
public final class Demo {
  private static final String CALIBRATION = "DEMO-1";
  private static final double RESISTOR_OHM = 10;
  private static final double RESISTOR_TOLERANCE = 0.001;

  private final JigImperfections jig = DemoWorld.HERON.load().jig();
  private final Judging judging = new Judging();
  private final ZonedDateTime when;
  private final String software;
  private final ProgressLine progress;
  private final StopRequest stop;

  /**
   * One box of the table.
   *
   * @param serial its number
   * @param truth how it was built
   * @param card what was said of it
   * @param match yes, honestly undecided, or NO
   * @param agrees false for NO
   */
  public record Row(String serial, String truth, JobCard card, String match, boolean agrees) {}

  /**
   * A demo.
   *
   * @param when the time to put on the cards
   * @param software the application's version
   */
  public Demo(ZonedDateTime when, String software, ProgressLine progress, StopRequest stop) {
    this.when = when;
    this.software = software;
    this.progress = progress;
    this.stop = stop;
  }

  /**
   * Runs.
   *
   * @return a row for each box
   * @throws CommandFailure when the virtual jig cannot be calibrated or does not answer
   */
  public List<Row> run() throws CommandFailure {
    SweepSettings settings = SweepSettings.standard().with(calibrate());
    List<Row> rows = new ArrayList<>();
    for (DemoBox box : DemoBox.values()) {
      double done = 3.0 + rows.size();
      progress.show(done / (3 + DemoBox.values().length), "measuring " + box.serial());
      JobCard card = card(box, sweep(box.world().load().with(jig), settings));
      DemoBox.Match match = box.match(card.verdict().decision());
      boolean agrees = match != DemoBox.Match.NO;
      rows.add(new Row(box.serial(), box.truth(), card, match.words(), agrees));
    }
    return rows;
  }

  private Calibration calibrate() throws CommandFailure {
    progress.show(0, "calibrating the virtual jig");
    World world = DemoWorld.HERON.load().with(jig);
    return new Calibrating(
            new VirtualClips(world, RESISTOR_OHM, progress),
            RESISTOR_OHM,
            RESISTOR_TOLERANCE,
            progress,
            stop)
        .withoutListening()
        .run(CALIBRATION);
  }

  private SweepResult sweep(World world, SweepSettings settings) throws CommandFailure {
    try (JigClient client = new JigChoice.Virtual(world).connect(progress)) {
      SweepOutcome outcome =
          new SweepRun(SweepKind.QUICK, settings, Optional.empty()).run(client, progress, stop);
      if (outcome instanceof Interrupted interrupted) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED, interrupted.because() + " " + interrupted.nextStep());
      }
      return (SweepResult) outcome;
    }
  }

  private JobCard card(DemoBox box, SweepResult result) throws CommandFailure {
    try {
      PlannedBox plan = PlannedBoxFile.bundled(box.plan());
      return judging.card(
          plan,
          result.measurement(),
          Optional.of(box.serial()),
          SweepFacts.of(result, "virtual jig", CALIBRATION + ", of this run", when, software));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.UNEXPECTED, bad.getMessage(), bad);
    }
  }
}
