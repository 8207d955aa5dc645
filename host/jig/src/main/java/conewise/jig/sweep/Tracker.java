package conewise.jig.sweep;

import conewise.jig.client.RecordProgress;

/** Turns the progress of single records into the progress of a whole sweep. */
final class Tracker {

  private final SweepListener listener;
  private CurveSoFar soFar = CurveSoFar.NONE;
  private double reached;
  private double from;
  private double to;
  private String what = "";

  Tracker(SweepListener listener) {
    this.listener = listener;
  }

  /** The next stretch of the sweep, told at once. */
  void stage(String what, double from, double to) {
    this.what = what;
    this.from = from;
    this.to = to;
    tell(from);
  }

  /** What is told from now on. */
  void soFar(CurveSoFar curve) {
    soFar = curve;
  }

  boolean wantsEarlyCurve() {
    return listener.wantsEarlyCurve();
  }

  void done() {
    what = "done";
    tell(1);
  }

  boolean wantsToStop() {
    return listener.wantsToStop();
  }

  RecordProgress record() {
    return (frames, ofFrames) -> {
      tell(from + (to - from) * frames / ofFrames);
      return !listener.wantsToStop();
    };
  }

  /** A record that is taken again does not turn the progress back. */
  private void tell(double fraction) {
    reached = Math.max(reached, Math.min(1, fraction));
    listener.progress(reached, what, soFar);
  }
}
