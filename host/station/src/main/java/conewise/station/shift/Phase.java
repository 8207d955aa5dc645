package conewise.station.shift;

/** Where a bench is in the way of one box. */
public enum Phase {
  /** No job is chosen yet. */
  JOB,
  /** The next box's number is waited for. */
  NUMBER,
  /** The box is known; it goes onto the clips. */
  CLIPS,
  /** The jig measures. */
  MEASURING,
  /** What was measured is weighed and kept. */
  JUDGING,
  /** The box's verdict is kept and shown. */
  VERDICT,
  /** A verdict could not be kept, and is therefore not shown. */
  NOT_KEPT
}
