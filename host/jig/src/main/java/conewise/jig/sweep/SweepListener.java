package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedancePoint;
import java.util.List;

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
   * @param soFar the points obtained so far, corrected, in order of frequency
   */
  void progress(double fraction, String what, List<ImpedancePoint> soFar);

  /** True when the sweep should stop; what was measured is kept. Asked at each progress. */
  default boolean wantsToStop() {
    return false;
  }
}
