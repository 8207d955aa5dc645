package conewise.station.shift;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.PossibleResistance;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.ExpectedBand;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.CurveSoFar;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.judging.Backdrops;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigLamps;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.BoxRun;
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

/** Judges and keeps one box, and the further tests of it. On the bench's own thread. */
final class BoxTurn {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final BoxSweep sweep;
  private final JigKeeper jig;
  private final Keeper keeper;
  private final Bench.Setting setting;
  private final Clock clock;
  private final StateBoard board;
  private final SleepWatch sleep;
  private final Backdrops backdrops = new Backdrops();
  private final Optional<ShiftChallenge> challenge;
  private Attempt attempt;

  BoxTurn(
      BoxSweep sweep,
      JigKeeper jig,
      Keeper keeper,
      Bench.Setting setting,
      Clock clock,
      StateBoard board,
      SleepWatch sleep,
      Optional<ShiftChallenge> challenge) {
    this.sleep = sleep;
    this.challenge = challenge;
    this.sweep = sweep;
    this.jig = jig;
    this.keeper = keeper;
    this.setting = setting;
    this.clock = clock;
    this.board = board;
  }

  /** Tells where the boxes of a plan should lie, or what is wrong with the plan. */
  void expect(Path plan) {
    try {
      ExpectedBand band = backdrops.expected(PlannedBoxFile.read(plan));
      board.change(state -> state.expected(band));
    } catch (BadFileException bad) {
      board.change(state -> state.remark(bad.getMessage()));
    }
  }

  /** The first sweep of an attempt. */
  void first(Job job, Path plan, OnBench box, JigClient client) {
    first(job, plan, box, client, Optional.empty());
  }

  /** The same of an artefact that proves the fixture: kept as that, and as no box of a job. */
  void prove(Artefact artefact, OnBench box, JigClient client) {
    Job job = new Job(Artefact.JOB, artefact.name());
    first(job, artefact.plan(), box, client, Optional.of(artefact));
  }

  private void first(
      Job job, Path plan, OnBench box, JigClient client, Optional<Artefact> artefact) {
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
    Optional<BoxSweep.Swept> swept =
        sweep.run(box, client, Optional.of(PossibleResistance.of(planned)));
    if (swept.isEmpty()) {
      return;
    }
    BoxSweep.Swept found = swept.get();
    OnBench compared =
        BoxSweep.doing(
            box,
            "Comparing the curve with a right box and with every fault.",
            found.measurement().curve());
    board.change(state -> state.box(compared, Phase.JUDGING));
    JobCard judged = judged(planned, box, found, found.measurement());
    Optional<Slept> slept = slept();
    JobCard card =
        ruled(
            artefact, slept.map(how -> judged(planned, box, found, how.nothing())).orElse(judged));
    BoxRun run =
        BoxRun.of(
            card,
            job.code(),
            text,
            new BoxRun.Bench(
                board.state().operator(),
                setting.station(),
                sweep.used(client),
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
              artefact,
              kept,
              Judging.numbered(card, kept.attempt()),
              List.of(),
              List.of());
      artefact.ifPresent(each -> saw(each, card.verdict()));
      show(box, slept);
    } catch (KeepingException e) {
      notKept(box, e);
    }
  }

  private JobCard judged(
      PlannedBox plan, OnBench box, BoxSweep.Swept swept, Measurement measurement) {
    return new Judging(setting.rates())
        .card(plan, measurement, Optional.of(box.serial()), swept.facts());
  }

  /** The sleep in which this sweep was cut, if so: whatever it gave is not judged. */
  private Optional<Slept> slept() {
    sleep.look();
    Optional<Slept> slept = sleep.take();
    slept.ifPresent(how -> jig.letGo());
    return slept;
  }

  /** What the shop's rules leave of a verdict; an artefact itself is what the challenge asks. */
  private JobCard ruled(Optional<Artefact> artefact, JobCard card) {
    Verdict calibrated = sweep.calibrated().rule().apply(card.verdict());
    return card.saying(
        artefact.isPresent() || challenge.isEmpty()
            ? calibrated
            : challenge.get().hold(calibrated, clock.instant(), sweep.readBy()));
  }

  private void saw(Artefact artefact, Verdict verdict) {
    challenge
        .orElseThrow()
        .saw(artefact, verdict.decision(), verdict.headline(), clock.instant(), sweep.readBy());
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
    Optional<BoxSweep.Swept> swept = sweep.run(box, client, Optional.empty());
    if (swept.isEmpty() || sleep.slept()) {
      return;
    }
    Measurement measured = swept.get().measurement();
    Optional<String> useless = useless(measured);
    if (useless.isPresent()) {
      light(attempt.card());
      board.change(
          change ->
              change
                  .box(box, Phase.VERDICT)
                  .remark("The second sweep tells nothing: " + useless.get()));
      return;
    }
    List<SweptState> sweeps = new ArrayList<>(attempt.sweeps());
    sweeps.removeIf(each -> each.state().equals(state));
    SweptState more = new SweptState(state, ((Found<ImpedanceCurve>) measured.curve()).value());
    sweeps.add(more);
    judgeAgain(box, attempt.with(sweeps, attempt.pops()), Optional.of(more), Optional.empty());
  }

  /** Why a second sweep is not weighed, if it is not: as the first, one that is spoiled is none. */
  private static Optional<String> useless(Measurement measured) {
    if (measured.curve() instanceof NoResult<ImpedanceCurve> none) {
      return Optional.of(none.because());
    }
    return measured.findings().stream()
        .filter(BenchFinding::spoils)
        .map(finding -> finding.sentence() + " " + finding.nextStep())
        .findFirst();
  }

  private void judgeAgain(
      OnBench box, Attempt next, Optional<SweptState> more, Optional<Observation> seen) {
    Outcome<ImpedanceCurve> swept =
        more.map(each -> Outcome.found(each.curve()))
            .orElseGet(() -> Outcome.none("nothing was swept"));
    OnBench compared = BoxSweep.doing(box, "Comparing again, with what was added.", swept);
    board.change(state -> state.box(compared, Phase.JUDGING));
    JobCard before = attempt.card();
    JobCard judged =
        new Judging(setting.rates())
            .card(
                next.plan(),
                before.measurement(),
                new BoxJudge.Evidence(next.sweeps(), List.copyOf(next.pops())),
                before.serial(),
                before.facts());
    JobCard card = Judging.numbered(ruled(next.artefact(), judged), next.kept().attempt());
    sleep.look();
    if (sleep.slept()) {
      return;
    }
    try {
      keeper.further(
          new Keeper.Further(
              next.kept(),
              more,
              seen,
              board.state().operator(),
              next.text(),
              clock.instant(),
              setting.software(),
              card.verdict()));
      attempt = next.saying(card);
      show(box, Optional.empty());
    } catch (KeepingException e) {
      notKept(box, e);
    }
  }

  private void light(JobCard card) {
    jig.client().ifPresent(client -> new JigLamps(client).show(card.verdict().decision()));
  }

  /**
   * The verdict first; what its curve is held against when that is computed. None where the
   * computer slept since it was judged: the box is measured again then.
   */
  private void show(OnBench box, Optional<Slept> slept) {
    sleep.lookAfterWork();
    if (sleep.slept()) {
      return;
    }
    JobCard card = attempt.card();
    light(card);
    Done done =
        new Done(
            box.serial(),
            attempt.job().code(),
            card.attempt().orElseThrow(),
            card.verdict().decision(),
            HOUR.format(ZonedDateTime.now(clock)),
            !shown(box).overruled().isEmpty());
    Optional<String> proven =
        attempt
            .artefact()
            .map(each -> challenge.orElseThrow().after(each, clock.instant(), sweep.readBy()));
    board.change(
        state -> {
          StateBoard.Change change = state.box(shown(box), Phase.VERDICT).done(done);
          slept.ifPresent(change::slept);
          return proven.isPresent() ? change.remark(proven.get()) : change;
        });
    try {
      attempt = attempt.saying(backdrops.behind(card));
      board.change(state -> state.more(shown(box)));
    } catch (RuntimeException own) {
      // A fault in drawing must not take away a verdict that is kept: it stands without.
      board.change(state -> state.remark("The expected curve could not be drawn."));
    }
  }

  private OnBench shown(OnBench box) {
    return new OnBench(
        box.serial(),
        1,
        "",
        CurveSoFar.NONE,
        Optional.of(attempt.card()),
        attempt.pops(),
        attempt.sweeps().stream().map(SweptState::state).toList(),
        Optional.of(attempt.kept()),
        box.kept().equals(Optional.of(attempt.kept())) ? box.overruled() : List.of());
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
}
