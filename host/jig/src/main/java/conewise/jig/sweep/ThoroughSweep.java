package conewise.jig.sweep;

import conewise.analysis.excitation.ScheduledTone;
import conewise.analysis.excitation.ToneSchedule;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.protocol.JigIdentity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Measures one tone after another, denser where the curve bends, each held until two successive
 * readings agree. A tone that does not settle is a point without a result, never a guess. About a
 * second a tone; 80 tones at most with the standard schedule.
 */
public final class ThoroughSweep {

  private static final double LOWEST_HZ = 10;
  private static final double HIGHEST_HZ = 400;
  private static final int MOST_TONES = 80;
  private static final int CHANNELS = 2;

  /** The share of the progress that the look at the bench takes. */
  private static final double CHECKED = 0.05;

  private final SweepSettings settings;
  private final Optional<ToneSchedule> given;

  /** A thorough sweep from 10 to 400 Hz with at most 80 tones. */
  public ThoroughSweep(SweepSettings settings) {
    this.settings = settings;
    this.given = Optional.empty();
  }

  /**
   * A thorough sweep of one's own schedule.
   *
   * @param schedule must be for the jig's tick and two channels
   */
  public ThoroughSweep(SweepSettings settings, ToneSchedule schedule) {
    this.settings = settings;
    this.given = Optional.of(schedule);
  }

  /**
   * Sweeps. The drive is off afterwards, whatever happened, as far as the jig still answers.
   *
   * @return the result, or why it was interrupted and what was measured until then
   */
  public SweepOutcome run(JigClient client, SweepListener listener) {
    return run(
        client,
        new SweepState(
            SweepKind.THOROUGH, client.identity(), Optional.empty(), List.of(), List.of()),
        listener);
  }

  /**
   * Goes on from an interruption: tones that are done are not played again.
   *
   * @return as {@link #run}; interrupted at once, with the same state, when this is another jig or
   *     the state is of another kind of sweep
   */
  public SweepOutcome resume(JigClient client, SweepState state, SweepListener listener) {
    Optional<Interrupted> refusal = Resumption.refusal(SweepKind.THOROUGH, client, state);
    return refusal.isPresent() ? refusal.get() : run(client, state, listener);
  }

  private SweepOutcome run(JigClient client, SweepState state, SweepListener listener) {
    Run run = new Run(client, state, new Tracker(listener));
    try {
      return run.sweep();
    } catch (JigFaultException failed) {
      Resumption.stopIfItAnswers(client);
      return new Interrupted(failed.fault(), run.state());
    }
  }

  private static ToneSchedule scheduleFor(JigIdentity identity) {
    return new ToneSchedule(LOWEST_HZ, HIGHEST_HZ, MOST_TONES, identity.tickSeconds(), CHANNELS);
  }

  /** One run on one jig. */
  private final class Run {
    private final JigClient client;
    private final Tracker tracker;
    private final RecordTaker taker;
    private final ToneSchedule schedule;
    private final Findings findings;
    private final List<ToneReading> readings;
    private final List<Capture> captures;
    private Optional<SelfCheckReport> selfCheck;

    Run(JigClient client, SweepState state, Tracker tracker) {
      this.client = client;
      this.tracker = tracker;
      this.taker = new RecordTaker(client, tracker);
      this.schedule = given.orElseGet(() -> scheduleFor(client.identity()));
      this.findings = new Findings(settings, client, taker, client.nanoTime());
      this.readings = new ArrayList<>(state.readings());
      this.captures = new ArrayList<>(state.captures());
      this.selfCheck = state.selfCheck();
    }

    SweepState state() {
      return new SweepState(SweepKind.THOROUGH, client.identity(), selfCheck, readings, captures);
    }

    SweepOutcome sweep() throws JigFaultException {
      if (settings.look() != SweepSettings.Look.NONE && selfCheck.isEmpty()) {
        BenchSelfCheck check = new BenchSelfCheck(QuickSweep.combFor(client.identity()), settings);
        selfCheck =
            Optional.of(
                settings.look() == SweepSettings.Look.LISTEN
                    ? check.listen(client, taker, tracker, 0, CHECKED)
                    : check.look(client, taker, tracker, 0, CHECKED));
      }
      if (selfCheck.isPresent() && selfCheck.get().spoils()) {
        return findings.notSwept(SweepKind.THOROUGH, selfCheck.get());
      }
      int full = client.identity().drive().levelMax();
      int level = selfCheck.map(SelfCheckReport::level).orElse(full);
      for (Optional<ScheduledTone> tone = next(); tone.isPresent(); tone = next()) {
        hold(tone.get(), level);
      }
      client.stop();
      return result(level);
    }

    /** The schedule counts tones without a result as done: it gets a stand-in for each. */
    private Optional<ScheduledTone> next() {
      if (readings.size() >= schedule.mostTones()) {
        return Optional.empty();
      }
      List<ImpedancePoint> done = new ArrayList<>(found());
      for (ToneReading reading : readings) {
        if (reading.read() instanceof Outcome.NoResult<ImpedancePoint>) {
          done.add(standIn(reading.frequencyHz()));
        }
      }
      return schedule.next(done);
    }

    /** The nearest point's impedance, for the schedule's eyes only. */
    private ImpedancePoint standIn(double frequencyHz) {
      return found().stream()
          .min(Comparator.comparingDouble(p -> Math.abs(Math.log(p.frequencyHz() / frequencyHz))))
          .map(p -> at(frequencyHz, p.resistanceOhm(), p.reactanceOhm()))
          .orElseGet(() -> at(frequencyHz, 1, 0));
    }

    private ImpedancePoint at(double hz, double resistanceOhm, double reactanceOhm) {
      return new ImpedancePoint(hz, resistanceOhm, reactanceOhm, Optional.empty());
    }

    private void hold(ScheduledTone tone, int level) throws JigFaultException {
      double share = (1 - CHECKED) / schedule.mostTones();
      double from = CHECKED + readings.size() * share;
      tracker.stage(
          String.format(Locale.ROOT, "holding %.1f Hz", tone.frequencyHz()), from, from + share);
      SettledTone settled = new SettledTone(client, tracker, tone, level);
      SettledTone.Held held;
      try {
        held = settled.hold();
      } finally {
        taker.count(settled.repeats());
      }
      readings.add(held.reading());
      held.capture().ifPresent(captures::add);
      held.estimate().ifPresent(estimate -> findings.tone(held.capture().get(), estimate));
      curve()
          .map(read -> Findings.corrected(settings, Outcome.found(read)))
          .map(curve -> CurveSoFar.of(CurveSoFar.Standing.GROWING, curve))
          .ifPresent(tracker::soFar);
    }

    private List<ImpedancePoint> found() {
      List<ImpedancePoint> points = new ArrayList<>();
      for (ToneReading reading : readings) {
        if (reading.read() instanceof Outcome.Found<ImpedancePoint> found) {
          points.add(found.value());
        }
      }
      points.sort(Comparator.comparingDouble(ImpedancePoint::frequencyHz));
      return points;
    }

    private Optional<ImpedanceCurve> curve() {
      List<ImpedancePoint> points = found();
      return points.isEmpty() ? Optional.empty() : Optional.of(new ImpedanceCurve(points));
    }

    private SweepResult result(int level) {
      Outcome<ImpedanceCurve> read =
          curve()
              .map(Outcome::found)
              .orElseGet(
                  () -> Outcome.none("No tone gave a result; the first: " + firstReason() + "."));
      findings.tones(readings, read);
      List<Double> frequencies = readings.stream().map(ToneReading::frequencyHz).sorted().toList();
      SweepResult result =
          findings.result(SweepKind.THOROUGH, read, captures, frequencies, level, selfCheck);
      tracker.soFar(CurveSoFar.of(CurveSoFar.Standing.MEASURED, result.measurement().curve()));
      tracker.done();
      return result;
    }

    private String firstReason() {
      return readings.stream()
          .map(ToneReading::read)
          .filter(read -> read instanceof Outcome.NoResult<ImpedancePoint>)
          .map(read -> ((Outcome.NoResult<ImpedancePoint>) read).because())
          .findFirst()
          .orElse("no tone was played");
    }
  }
}
