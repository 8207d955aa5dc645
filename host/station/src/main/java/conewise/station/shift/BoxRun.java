package conewise.station.shift;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.station.answer.CommandFailure;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.keeping.RunRecord;
import conewise.station.measuring.JigLamps;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.shift.BenchState.Done;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BooleanSupplier;

/** Measures, judges and keeps one box, and the further tests of it. On the bench's own thread. */
final class BoxRun {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final JigSource source;
  private final JigKeeper jig;
  private final Keeper keeper;
  private final Bench.Setting setting;
  private final Clock clock;
  private final StateBoard board;
  private final BooleanSupplier stopAsked;
  private Attempt attempt;

  BoxRun(
      JigSource source,
      JigKeeper jig,
      Keeper keeper,
      Bench.Setting setting,
      Clock clock,
      StateBoard board,
      BooleanSupplier stopAsked) {
    this.source = source;
    this.jig = jig;
    this.keeper = keeper;
    this.setting = setting;
    this.clock = clock;
    this.board = board;
    this.stopAsked = stopAsked;
  }

  /** What is known of the box whose verdict is shown. */
  private record Attempt(
      Job job,
      PlannedBox plan,
      JobCard card,
      List<SweptState> sweeps,
      List<Observation.Pop> pops) {}

  /** A sweep, and the facts of how it was made. */
  private record Swept(Measurement measurement, List<JobCard.Fact> facts, List<Capture> captures) {}

  /** The first sweep of an attempt. */
  void first(Job job, Path plan, OnBench box, JigClient client) {
    PlannedBox planned;
    try {
      planned = PlannedBoxFile.read(plan);
    } catch (BadFileException bad) {
      board.change(state -> state.remark(bad.getMessage()));
      return;
    }
    Optional<Swept> swept = sweep(box, client);
    if (swept.isEmpty()) {
      return;
    }
    board.change(state -> state.box(doing(box, "weighing what may be the case"), Phase.JUDGING));
    Swept found = swept.get();
    JobCard card =
        new Judging(setting.rates())
            .card(planned, found.measurement(), Optional.of(box.serial()), found.facts());
    try {
      JobCard kept =
          keeper.keep(new RunRecord(card, found.captures()), plan, board.state().operator());
      attempt = new Attempt(job, planned, kept, List.of(), List.of());
      show(box);
    } catch (IOException e) {
      notKept(box, e);
    }
  }

  /** What a cone did. */
  void pop(OnBench box, Observation.Pop pop) {
    List<Observation.Pop> pops = new ArrayList<>(attempt.pops());
    pops.removeIf(each -> each.driver().equals(pop.driver()));
    pops.add(pop);
    judgeAgain(
        box,
        new Attempt(attempt.job(), attempt.plan(), attempt.card(), attempt.sweeps(), pops),
        List.of());
  }

  /** Another sweep of the same box. */
  void again(OnBench box, State state, JigClient client) {
    Optional<Swept> swept = sweep(box, client);
    if (swept.isEmpty()) {
      return;
    }
    if (swept.get().measurement().curve() instanceof NoResult<ImpedanceCurve> none) {
      board.change(
          change ->
              change
                  .box(box, Phase.VERDICT)
                  .remark("The second sweep gave no curve: " + none.because()));
      return;
    }
    List<SweptState> sweeps = new ArrayList<>(attempt.sweeps());
    sweeps.removeIf(each -> each.state().equals(state));
    sweeps.add(
        new SweptState(state, ((Found<ImpedanceCurve>) swept.get().measurement().curve()).value()));
    judgeAgain(
        box,
        new Attempt(attempt.job(), attempt.plan(), attempt.card(), sweeps, attempt.pops()),
        swept.get().captures());
  }

  private void judgeAgain(OnBench box, Attempt next, List<Capture> captures) {
    board.change(state -> state.box(doing(box, "weighing it again"), Phase.JUDGING));
    JobCard before = attempt.card();
    List<Observation> seen = List.copyOf(next.pops());
    JobCard judged =
        new Judging(setting.rates())
            .card(
                next.plan(),
                before.measurement(),
                new BoxJudge.Evidence(next.sweeps(), seen),
                before.serial(),
                before.facts());
    JobCard card = Judging.numbered(judged, before.attempt().orElseThrow());
    try {
      keeper.further(new RunRecord(card, captures), seen, board.state().operator());
      attempt = new Attempt(next.job(), next.plan(), card, next.sweeps(), next.pops());
      show(box);
    } catch (IOException e) {
      notKept(box, e);
    }
  }

  private Optional<Swept> sweep(OnBench box, JigClient client) {
    ZonedDateTime now = ZonedDateTime.now(clock);
    SweepSettings settings;
    try {
      settings = source.settings(client.identity());
    } catch (CommandFailure foreign) {
      board.change(state -> state.remark(foreign.getMessage()));
      return Optional.empty();
    }
    board.change(state -> state.box(doing(box, "looking at the clips"), Phase.MEASURING));
    new JigLamps(client).busy();
    SweepKind kind = setting.thorough() ? SweepKind.THOROUGH : SweepKind.QUICK;
    SweepOutcome outcome =
        new SweepRun(kind, settings, Optional.empty()).run(client, new Following(box));
    if (outcome instanceof SweepResult result) {
      return Optional.of(
          new Swept(
              result.measurement(),
              SweepFacts.of(
                  result, client.linkName(), source.calibration(now), now, setting.software()),
              result.captures()));
    }
    Interrupted interrupted = (Interrupted) outcome;
    Swept none = nothing(interrupted, client, now);
    if (!stopAsked.getAsBoolean()) {
      jig.lost(interrupted.because() + " " + interrupted.nextStep());
      board.change(state -> state.jig(jig.line()));
    }
    return Optional.of(none);
  }

  private Swept nothing(Interrupted interrupted, JigClient client, ZonedDateTime now) {
    BenchFinding finding =
        new BenchFinding(
            BenchFinding.Kind.LINK, true, interrupted.because(), interrupted.nextStep());
    return new Swept(
        new Measurement(Outcome.none(interrupted.because()), List.of(finding)),
        SweepFacts.ofNone(client.identity(), client.linkName(), now, setting.software()),
        interrupted.state().captures());
  }

  private void show(OnBench box) {
    JobCard card = attempt.card();
    jig.client().ifPresent(client -> new JigLamps(client).show(card.verdict().decision()));
    Done done =
        new Done(
            box.serial(),
            attempt.job().code(),
            card.attempt().orElseThrow(),
            card.verdict().decision(),
            HOUR.format(ZonedDateTime.now(clock)));
    OnBench shown =
        new OnBench(
            box.serial(),
            1,
            "",
            List.of(),
            Optional.of(card),
            attempt.pops(),
            attempt.sweeps().stream().map(SweptState::state).toList());
    board.change(state -> state.box(shown, Phase.VERDICT).done(done));
  }

  private void notKept(OnBench box, IOException problem) {
    board.change(
        state ->
            state
                .box(OnBench.of(box.serial()), Phase.NOT_KEPT)
                .remark(
                    "The result could not be kept, so no verdict is shown: "
                        + problem.getMessage()));
  }

  private static OnBench doing(OnBench box, String what) {
    return new OnBench(
        box.serial(), box.fraction(), what, box.soFar(), Optional.empty(), List.of(), List.of());
  }

  /** Tells how far the sweep has come, and stops it when asked. */
  private final class Following implements SweepListener {
    private final OnBench box;

    Following(OnBench box) {
      this.box = box;
    }

    @Override
    public void progress(double fraction, String what, List<ImpedancePoint> soFar) {
      OnBench now =
          new OnBench(box.serial(), fraction, what, soFar, Optional.empty(), List.of(), List.of());
      board.change(state -> state.box(now, Phase.MEASURING));
    }

    @Override
    public boolean wantsToStop() {
      return stopAsked.getAsBoolean();
    }
  }
}
