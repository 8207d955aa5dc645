package conewise.station.shift;

import conewise.analysis.diagnosis.PossibleResistance;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.CurveSoFar;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.card.JobCard;
import conewise.station.fixture.FixtureJig;
import conewise.station.measuring.JigLamps;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.records.JigUsed;
import conewise.station.shift.BenchState.OnBench;
import java.time.Clock;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;

/** Sweeps the box on the clips and tells how far that has come. On the bench's own thread. */
final class BoxSweep {
  private final JigSource source;
  private final JigKeeper jig;
  private final Bench.Setting setting;
  private final Clock clock;
  private final StateBoard board;
  private final SleepWatch sleep;
  private final BooleanSupplier stopAsked;
  private JigSource.Calibrated calibrated = JigSource.Calibrated.none();
  private FixtureJig readBy;

  BoxSweep(
      JigSource source,
      JigKeeper jig,
      Bench.Setting setting,
      Clock clock,
      StateBoard board,
      SleepWatch sleep,
      BooleanSupplier stopAsked) {
    this.source = source;
    this.jig = jig;
    this.setting = setting;
    this.clock = clock;
    this.board = board;
    this.sleep = sleep;
    this.stopAsked = stopAsked;
  }

  /** A sweep, and the facts of how it was made. */
  record Swept(Measurement measurement, List<JobCard.Fact> facts, List<Capture> captures) {}

  /** With which jig and calibration the last sweep was made. */
  FixtureJig readBy() {
    return readBy;
  }

  /** The calibration of the last sweep. */
  JigSource.Calibrated calibrated() {
    return calibrated;
  }

  /** With what the last sweep was made. */
  JigUsed used(JigClient client) {
    JigIdentity.Jig is = client.identity().jig();
    return new JigUsed(
        is.serial(), is.board(), is.firmware(), readBy.calibration(), OptionalDouble.empty());
  }

  /**
   * Sweeps; none, with a remark, where the calibration forbids it.
   *
   * @param expected what the box may read at DC, where that is known
   */
  Optional<Swept> run(OnBench box, JigClient client, Optional<PossibleResistance> expected) {
    ZonedDateTime now = ZonedDateTime.now(clock);
    try {
      calibrated = source.calibrated(client.identity(), now);
      readBy = jig.as(client, calibrated);
    } catch (CommandFailure foreign) {
      board.change(state -> state.remark(foreign.getMessage()));
      return Optional.empty();
    }
    board.change(
        state ->
            state.box(doing(box, 0, "looking at the clips", CurveSoFar.NONE), Phase.MEASURING));
    new JigLamps(client).busy();
    SweepKind kind = setting.thorough() ? SweepKind.THOROUGH : SweepKind.QUICK;
    SweepOutcome outcome =
        new SweepRun(kind, settings(expected), Optional.empty()).run(client, new Following(box));
    sleep.look();
    return Optional.of(
        outcome instanceof SweepResult result
            ? whole(result, client, now)
            : broken((Interrupted) outcome, client, now));
  }

  private SweepSettings settings(Optional<PossibleResistance> expected) {
    SweepSettings settings = calibrated.settings();
    return expected.map(settings::expecting).orElse(settings);
  }

  private Swept whole(SweepResult result, JigClient client, ZonedDateTime now) {
    return new Swept(
        result.measurement(),
        SweepFacts.of(result, client.linkName(), calibrated.words(), now, setting.software()),
        result.captures());
  }

  private Swept broken(Interrupted interrupted, JigClient client, ZonedDateTime now) {
    Swept none =
        new Swept(
            SweepRun.nothing(interrupted),
            SweepFacts.ofNone(client.identity(), client.linkName(), now, setting.software()),
            interrupted.state().captures());
    if (!stopAsked.getAsBoolean() && !sleep.slept()) {
      jig.lost(interrupted.because() + " " + interrupted.nextStep());
      board.change(state -> state.jig(jig.line()));
    }
    return none;
  }

  /**
   * The box with what is being done; whatever verdict it had is off the card.
   *
   * @param swept the curve of a whole sweep: of one that was cut nothing stays
   */
  static OnBench doing(OnBench box, String what, Outcome<ImpedanceCurve> swept) {
    return doing(box, 1, what, CurveSoFar.of(CurveSoFar.Standing.MEASURED, swept));
  }

  private static OnBench doing(OnBench box, double fraction, String what, CurveSoFar soFar) {
    return OnBench.measured(box.serial(), fraction, what, soFar);
  }

  /** Tells how far the sweep has come, and stops it when asked. */
  private final class Following implements SweepListener {
    private final OnBench box;

    Following(OnBench box) {
      this.box = box;
    }

    @Override
    public void progress(double fraction, String what, CurveSoFar soFar) {
      OnBench now = doing(box, fraction, what, soFar);
      sleep.look();
      board.change(state -> state.box(now, Phase.MEASURING));
    }

    @Override
    public boolean wantsEarlyCurve() {
      return true;
    }

    @Override
    public boolean wantsToStop() {
      return stopAsked.getAsBoolean() || sleep.slept();
    }
  }
}
