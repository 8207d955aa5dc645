package conewise.analysis.impedance;

import conewise.analysis.sampling.ToneFit;
import java.util.List;

/**
 * What one capture gave: a curve, what was left out of it, and the two fits behind it.
 *
 * @param curve the points obtained
 * @param leftOut the frequencies at which nothing could be said, each with its reason
 * @param voltage the fit of the voltage, in volt
 * @param current the fit of the current, in ampere
 */
public record ImpedanceEstimate(
    ImpedanceCurve curve, List<LeftOut> leftOut, ToneFit voltage, ToneFit current) {

  /**
   * A frequency at which nothing could be said.
   *
   * @param frequencyHz the frequency in hertz
   * @param because one plain sentence
   */
  public record LeftOut(double frequencyHz, String because) {}

  public ImpedanceEstimate {
    leftOut = List.copyOf(leftOut);
  }
}
