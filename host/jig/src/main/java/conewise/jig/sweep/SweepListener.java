package conewise.jig.sweep;

/** Follows a sweep; called on the thread that sweeps, at least ten times a second of jig time. */
@FunctionalInterface
public interface SweepListener {

  /** One that neither listens nor stops. */
  SweepListener NONE = (fraction, what, soFar) -> {};

  /**
   * How far the sweep has come.
   *
   * @param fraction 0 to 1, never falling within one run
   * @param what what is being done, a few words, e.g. "listening to the terminals"
   * @param soFar what of the curve is known so far
   */
  void progress(double fraction, String what, CurveSoFar soFar);

  /**
   * True when a quick sweep should tell {@linkplain CurveSoFar.Standing#ESTIMATED estimates} while
   * its record still comes, eight in a period of its comb. That costs a few microseconds a sample.
   * A thorough sweep tells its points in any case.
   */
  default boolean wantsEarlyCurve() {
    return false;
  }

  /** True when the sweep should stop; what was measured is kept. Asked at each progress. */
  default boolean wantsToStop() {
    return false;
  }
}
