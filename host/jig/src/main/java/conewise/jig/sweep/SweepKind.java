package conewise.jig.sweep;

/** The two ways of measuring. */
public enum SweepKind {
  /** All frequencies at once, in a few seconds. */
  QUICK,
  /** One tone after another, each until it has settled. */
  THOROUGH
}
