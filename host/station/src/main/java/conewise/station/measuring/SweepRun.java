package conewise.station.measuring;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.CurveSoFar;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepSettings;
import conewise.jig.sweep.SweepState;
import conewise.jig.sweep.ThoroughSweep;
import conewise.station.answer.ProgressLine;
import java.util.List;
import java.util.Optional;

/**
 * One sweep as a command asks for it.
 *
 * @param kind quick or thorough
 * @param settings self-check and calibration
 * @param from the interrupted sweep to go on with, if any
 */
public record SweepRun(SweepKind kind, SweepSettings settings, Optional<SweepState> from) {

  /**
   * Sweeps.
   *
   * @param client the jig
   * @param progress told how far the sweep has come
   * @param stop asked whether to stop
   * @return the result, or the interruption
   */
  public SweepOutcome run(JigClient client, ProgressLine progress, StopRequest stop) {
    return run(client, following(progress, stop));
  }

  /** The same, told to a listener, which may stop it. */
  public SweepOutcome run(JigClient client, SweepListener listener) {
    if (kind == SweepKind.QUICK) {
      QuickSweep sweep = new QuickSweep(settings);
      return from.map(state -> sweep.resume(client, state, listener))
          .orElseGet(() -> sweep.run(client, listener));
    }
    ThoroughSweep sweep = new ThoroughSweep(settings);
    return from.map(state -> sweep.resume(client, state, listener))
        .orElseGet(() -> sweep.run(client, listener));
  }

  /** What a sweep gave that came to no end: no curve, and why. */
  public static Measurement nothing(Interrupted interrupted) {
    BenchFinding finding =
        new BenchFinding(
            BenchFinding.Kind.LINK, true, interrupted.because(), interrupted.nextStep());
    return new Measurement(Outcome.none(interrupted.because()), List.of(finding));
  }

  /** Shows progress, and passes on that somebody wants to stop. */
  public static SweepListener following(ProgressLine progress, StopRequest stop) {
    return new Following(progress, stop);
  }

  private record Following(ProgressLine line, StopRequest stop) implements SweepListener {
    @Override
    public void progress(double fraction, String what, CurveSoFar soFar) {
      int points = soFar.points().size();
      line.show(fraction, points == 0 ? what : what + " (" + points + " points)");
    }

    @Override
    public boolean wantsToStop() {
      return stop.asked();
    }
  }
}
