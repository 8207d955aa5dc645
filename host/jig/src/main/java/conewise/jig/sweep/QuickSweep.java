package conewise.jig.sweep;

import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.Recording;
import conewise.jig.client.Wave;
import conewise.protocol.JigIdentity;
import conewise.protocol.WavePoints;
import java.util.List;
import java.util.Optional;

/**
 * Measures all frequencies at once: loads a comb of tones, lets it settle for half a period and
 * records two, of which the second is measured and the first shows whether anything changed. With
 * the standard comb that is 2.6 s of wave and about 0.1 s of talk.
 *
 * <p>A record that clips is taken again at a lower level, one that something hit (a slammed door, a
 * knock) is taken again as it is, each a bounded number of times.
 */
public final class QuickSweep {

  /** What a record that clipped is lowered by; three steps make a third. */
  private static final double LOWER_BY = 0.7;

  /** How often the comb is played at most. */
  static final int ATTEMPTS = 3;

  /** The tick of the board of this project, in seconds. */
  private static final double STANDARD_TICK_SECONDS = 64e-6;

  private final SweepSettings settings;
  private final Optional<Comb> given;

  /** A quick sweep with the standard comb, fitted to the jig's tick. */
  public QuickSweep(SweepSettings settings) {
    this.settings = settings;
    this.given = Optional.empty();
  }

  /**
   * A quick sweep with a comb of one's own.
   *
   * @param comb its table must fit the jig's
   */
  public QuickSweep(SweepSettings settings, Comb comb) {
    this.settings = settings;
    this.given = Optional.of(comb);
  }

  /** The standard comb for a jig, of a period of about a second of its ticks. */
  static Comb combFor(JigIdentity identity) {
    double tick = identity.tickSeconds();
    if (tick == STANDARD_TICK_SECONDS) {
      return Comb.standard();
    }
    double wanted = Comb.STANDARD_PERIOD_TICKS * STANDARD_TICK_SECONDS / tick;
    int ticks = Integer.highestOneBit((int) Math.round(wanted * Math.sqrt(2)));
    return Comb.design(tick, ticks, Comb.STANDARD_TABLE_POINTS, 1);
  }

  /**
   * Sweeps. The drive is off afterwards, whatever happened, as far as the jig still answers.
   *
   * @return the result, or why it was interrupted
   */
  public SweepOutcome run(JigClient client, SweepListener listener) {
    return run(client, Optional.empty(), listener);
  }

  /**
   * Goes on from an interruption: what the bench looked like is not asked again.
   *
   * @return as {@link #run(JigClient, SweepListener)}; interrupted at once, with the same state,
   *     when this is another jig or the state is of another kind of sweep
   */
  public SweepOutcome resume(JigClient client, SweepState state, SweepListener listener) {
    Optional<Interrupted> refusal = Resumption.refusal(SweepKind.QUICK, client, state);
    if (refusal.isPresent()) {
      return refusal.get();
    }
    return run(client, state.selfCheck(), listener);
  }

  private SweepOutcome run(
      JigClient client, Optional<SelfCheckReport> known, SweepListener listener) {
    Run run = new Run(client, new Tracker(listener), known);
    try {
      return run.sweep();
    } catch (JigFaultException failed) {
      Resumption.stopIfItAnswers(client);
      return new Interrupted(failed.fault(), run.state());
    }
  }

  /** One run on one jig. */
  private final class Run {
    private final JigClient client;
    private final Comb comb;
    private final Tracker tracker;
    private final RecordTaker taker;
    private final long begun;
    private Optional<SelfCheckReport> selfCheck;

    Run(JigClient client, Tracker tracker, Optional<SelfCheckReport> known) {
      this.client = client;
      this.comb = given.orElseGet(() -> combFor(client.identity()));
      this.tracker = tracker;
      this.taker = new RecordTaker(client, tracker);
      this.selfCheck = known;
      this.begun = client.nanoTime();
    }

    SweepState state() {
      return new SweepState(SweepKind.QUICK, client.identity(), selfCheck, List.of(), List.of());
    }

    SweepOutcome sweep() throws JigFaultException {
      requireFits();
      if (selfCheck.isEmpty()) {
        selfCheck = looked();
      }
      Findings findings = new Findings(settings, client, taker, begun);
      if (selfCheck.isPresent() && selfCheck.get().spoils()) {
        return findings.notSwept(SweepKind.QUICK, selfCheck.get());
      }
      tracker.stage("playing all tones at once", begunAt(), 1);
      Take take = take();
      SweepResult result =
          findings.quick(
              comb.frequenciesHz(),
              take.level,
              selfCheck,
              take.unlike,
              take.measured,
              take.estimate);
      tracker.soFar(CurveSoFar.of(CurveSoFar.Standing.MEASURED, result.measurement().curve()));
      tracker.done();
      return result;
    }

    private Optional<SelfCheckReport> looked() throws JigFaultException {
      BenchSelfCheck check = new BenchSelfCheck(comb, settings);
      return switch (settings.look()) {
        case WHOLE -> Optional.of(check.look(client, taker, tracker, 0, begunAt()));
        case LISTEN -> Optional.of(check.listen(client, taker, tracker, 0, begunAt()));
        case NONE -> Optional.empty();
      };
    }

    /** The part of the time that the look at the bench takes. */
    private double begunAt() {
      return switch (settings.look()) {
        case WHOLE -> 0.5;
        case LISTEN -> 0.15;
        case NONE -> 0;
      };
    }

    /** Plays the comb until a record neither clips nor was hit, a bounded number of times. */
    private Take take() throws JigFaultException {
      int full = client.identity().drive().levelMax();
      int level = selfCheck.map(SelfCheckReport::level).orElse(full);
      for (int attempt = 1; ; attempt++) {
        Recording recording =
            taker.of(
                wave(comb, client, level),
                comb.table(),
                order(),
                () -> EarlyCurve.following(tracker, comb, exactFramesInPeriod(), settings));
        TwoPeriods periods = new TwoPeriods(recording.capture(), framesInPeriod());
        boolean clipped = recording.touchedRail();
        if (attempt == ATTEMPTS || !(clipped || periods.wasHit())) {
          Capture measured = periods.measured(comb.frequenciesHz());
          return new Take(
              level, periods.unlike(), measured, MainsHum.estimate(measured, comb.frequenciesHz()));
        }
        level = clipped ? Math.max(1, (int) (level * LOWER_BY)) : level;
      }
    }

    private void requireFits() throws JigFaultException {
      int points = client.identity().wave().pointsMax();
      if (comb.table().length > points) {
        throw new JigFaultException(
            new JigFault.Unsuited(
                "The quick sweep's comb has "
                    + comb.table().length
                    + " points, but the jig's table holds "
                    + points
                    + ".",
                "Use the thorough sweep with this jig."));
      }
    }

    /** Half a period to settle, two to compare and to measure. */
    private RecordOrder order() {
      int frames = framesInPeriod();
      return RecordOrder.raw(2 * frames, frames / 2);
    }

    private int framesInPeriod() {
      return (int) Math.round(exactFramesInPeriod());
    }

    private double exactFramesInPeriod() {
      double ticks = comb.basePeriodSeconds() / client.identity().tickSeconds();
      return ticks / RecordOrder.raw(1, 0).shape().intervalTicks();
    }
  }

  /** One record of the comb and what it gave. */
  private record Take(
      int level, double unlike, Capture measured, Outcome<ImpedanceEstimate> estimate) {}

  static Wave.Table wave(Comb comb, JigClient client, int level) {
    byte[] table = comb.table();
    return new Wave.Table(
        table.length,
        comb.step(client.identity().tickSeconds()),
        level,
        WavePoints.checksum(table, table.length));
  }
}
