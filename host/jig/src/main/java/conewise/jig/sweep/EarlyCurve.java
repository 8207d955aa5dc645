package conewise.jig.sweep;

import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.RunningEstimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.RecordProgress;

/** Tells the curve that a comb's record shows while it still comes in. */
final class EarlyCurve implements RecordProgress {

  /** With fewer samples in a period there is little to see and little to wait for. */
  private static final int FRAMES_MIN = 512;

  private final RecordProgress progress;
  private final RunningEstimate estimate;
  private final SweepSettings settings;
  private final Tracker tracker;

  private EarlyCurve(Tracker tracker, RunningEstimate estimate, SweepSettings settings) {
    this.progress = tracker.record();
    this.tracker = tracker;
    this.estimate = estimate;
    this.settings = settings;
    tracker.soFar(CurveSoFar.NONE);
  }

  /**
   * Follows a record that begins anew.
   *
   * @param framesInPeriod a whole number of frames, or as near to one as the jig's tick lets
   * @return one that tells no curve where nobody wants it or the period holds no whole frames
   */
  static RecordProgress following(
      Tracker tracker, Comb comb, double framesInPeriod, SweepSettings settings) {
    int frames = (int) framesInPeriod;
    boolean fits =
        frames == framesInPeriod && frames >= FRAMES_MIN && frames % RunningEstimate.PARTS == 0;
    return fits && tracker.wantsEarlyCurve()
        ? new EarlyCurve(tracker, new RunningEstimate(frames, comb.lines()), settings)
        : tracker.record();
  }

  @Override
  public void came(Capture piece) {
    if (estimate.add(piece)) {
      tracker.soFar(
          estimate
              .curve()
              .map(read -> Findings.corrected(settings, Outcome.found(read)))
              .map(curve -> CurveSoFar.of(CurveSoFar.Standing.ESTIMATED, curve))
              .orElse(CurveSoFar.NONE));
    }
  }

  @Override
  public boolean goOn(int frames, int ofFrames) {
    return progress.goOn(frames, ofFrames);
  }
}
