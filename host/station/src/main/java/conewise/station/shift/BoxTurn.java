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
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigLamps;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.PlanText;
import conewise.station.shift.BenchState.Done;
import conewise.station.shift.BenchState.Job;
import conewise.station.shift.BenchState.OnBench;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;

/** Measures, judges and keeps one box, and the further tests of it. On the bench's own thread. */
final class BoxTurn {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final JigSource source;
  private final JigKeeper jig;
  private final Keeper keeper;
  private final Bench.Setting setting;
  private final Clock clock;
  private final StateBoard board;
  private final BooleanSupplier stopAsked;
  private Attempt attempt;
  private JigSource.Calibrated calibrated = JigSource.Calibrated.none();

  BoxTurn(
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
      PlanText text,
      Keeper.Kept kept,
      JobCard card,
      List<SweptState> sweeps,
      List<Observation.Pop> pops) {
    Attempt with(List<SweptState> otherSweeps, List<Observation.Pop> otherPops) {
      return new Attempt(job, plan, text, kept, card, otherSweeps, otherPops);
    }

    Attempt saying(JobCard other) {
      return new Attempt(job, plan, text, kept, other, sweeps, pops);
    }
  }

  /** A sweep, and the facts of how it was made. */
  private record Swept(Measurement measurement, List<JobCard.Fact> facts, List<Capture> captures) {}

  /** The first sweep of an attempt. */
  void first(Job job, Path plan, OnBench box, JigClient client) {
    PlannedBox planned;
    PlanText text;
    try {
      planned = PlannedBoxFile.read(plan);
      text = PlanText.of(plan.getFileName().toString(), PlannedBoxFile.bytes(plan));
    } catch (BadFileException bad) {
      board.change(state -> state.remark(bad.getMessage()));
      return;
    } catch (IOException unread) {
      board.change(state -> state.remark("The plan " + plan + " cannot be read."));
      return;
    }
    Instant started = clock.instant();
    Optional<Swept> swept = sweep(box, client);
    if (swept.isEmpty()) {
      return;
    }
    board.change(state -> state.box(doing(box, "weighing what may be the case"), Phase.JUDGING));
    Swept found = swept.get();
    JobCard card =
        ruled(
            new Judging(setting.rates())
                .card(planned, found.measurement(), Optional.of(box.serial()), found.facts()));
    BoxRun run =
        BoxRun.of(
            card,
            job.code(),
            text,
            new BoxRun.Bench(
                board.state().operator(),
                setting.station(),
                used(client),
                started,
                clock.instant(),
                setting.software()),
            found.captures(),
            List.of());
    try {
      Keeper.Kept kept = keeper.keep(run);
      attempt =
          new Attempt(
              job,
              planned,
              text,
              kept,
              Judging.numbered(card, kept.attempt()),
              List.of(),
              List.of());
      show(box);
    } catch (KeepingException e) {
      notKept(box, e);
    }
  }

  /** What the shop's rule on calibrations leaves of a verdict. */
  private JobCard ruled(JobCard card) {
    return card.saying(calibrated.rule().apply(card.verdict()));
  }

  private JigUsed used(JigClient client) {
    JigIdentity.Jig is = client.identity().jig();
    return new JigUsed(
        is.serial(),
        is.board(),
        is.firmware(),
        Optional.of(calibrated.words()),
        OptionalDouble.empty());
  }

  /** What a cone did. */
  void pop(OnBench box, Observation.Pop pop) {
    List<Observation.Pop> pops = new ArrayList<>(attempt.pops());
    pops.removeIf(each -> each.driver().equals(pop.driver()));
    pops.add(pop);
    judgeAgain(box, attempt.with(attempt.sweeps(), pops), Optional.empty(), Optional.of(pop));
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
    SweptState more =
        new SweptState(state, ((Found<ImpedanceCurve>) swept.get().measurement().curve()).value());
    sweeps.add(more);
    judgeAgain(box, attempt.with(sweeps, attempt.pops()), Optional.of(more), Optional.empty());
  }

  private void judgeAgain(
      OnBench box, Attempt next, Optional<SweptState> sweep, Optional<Observation> seen) {
    board.change(state -> state.box(doing(box, "weighing it again"), Phase.JUDGING));
    JobCard before = attempt.card();
    JobCard judged =
        new Judging(setting.rates())
            .card(
                next.plan(),
                before.measurement(),
                new BoxJudge.Evidence(next.sweeps(), List.copyOf(next.pops())),
                before.serial(),
                before.facts());
    JobCard card = Judging.numbered(ruled(judged), next.kept().attempt());
    try {
      keeper.further(
          new Keeper.Further(
              next.kept(),
              sweep,
              seen,
              board.state().operator(),
              next.text(),
              clock.instant(),
              setting.software(),
              card.verdict()));
      attempt = next.saying(card);
      show(box);
    } catch (KeepingException e) {
      notKept(box, e);
    }
  }

  private Optional<Swept> sweep(OnBench box, JigClient client) {
    ZonedDateTime now = ZonedDateTime.now(clock);
    try {
      calibrated = source.calibrated(client.identity(), now);
    } catch (CommandFailure foreign) {
      board.change(state -> state.remark(foreign.getMessage()));
      return Optional.empty();
    }
    board.change(state -> state.box(doing(box, "looking at the clips"), Phase.MEASURING));
    new JigLamps(client).busy();
    SweepKind kind = setting.thorough() ? SweepKind.THOROUGH : SweepKind.QUICK;
    SweepOutcome outcome =
        new SweepRun(kind, calibrated.settings(), Optional.empty()).run(client, new Following(box));
    if (outcome instanceof SweepResult result) {
      return Optional.of(
          new Swept(
              result.measurement(),
              SweepFacts.of(result, client.linkName(), calibrated.words(), now, setting.software()),
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

  private void notKept(OnBench box, KeepingException problem) {
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
