package conewise.jig.sweep;

import conewise.analysis.diagnosis.PossibleResistance;
import java.util.Optional;

/**
 * How to sweep.
 *
 * @param look how to look at the bench first
 * @param calibration the correction to apply; without one the jig's nominal scales are used, and
 *     the result says so
 * @param scaleUncertainty relative standard uncertainty of an uncalibrated jig's scale, 0 to 0.5;
 *     it goes into the curve as common to all points. Not used with a calibration
 * @param expected what the box may read at DC; another one is not swept
 */
public record SweepSettings(
    Look look,
    Optional<Calibration> calibration,
    double scaleUncertainty,
    Optional<PossibleResistance> expected) {

  /** How to look at the bench before a sweep. */
  public enum Look {
    /** Foreign voltage, open or shorted terminals, DC resistance, drive level. */
    WHOLE,
    /**
     * For a foreign voltage alone, since the terminals are open or shorted on purpose: nothing is
     * driven against one.
     */
    LISTEN,
    /** Not at all. */
    NONE
  }

  /**
   * What the parts of the jig leave open: two gains of 5 % and a sense resistor of 1 %, all values
   * within equally likely (JCGM 100, 4.3.7): the root of (5^2 + 5^2 + 1^2)/3 is 4.1 %.
   */
  public static final double SCALE_UNCERTAINTY = 0.041;

  public SweepSettings {
    if (!(scaleUncertainty >= 0 && scaleUncertainty <= 0.5)) {
      throw new IllegalArgumentException(
          "the scale's relative standard uncertainty is "
              + scaleUncertainty
              + "; it runs from 0 to 0.5");
    }
  }

  /** With a look at the bench, without a calibration. */
  public static SweepSettings standard() {
    return new SweepSettings(Look.WHOLE, Optional.empty(), SCALE_UNCERTAINTY, Optional.empty());
  }

  /** The same without a look at the bench. */
  public SweepSettings withoutSelfCheck() {
    return new SweepSettings(Look.NONE, calibration, scaleUncertainty, expected);
  }

  /** The same with no more than a listening before. */
  public SweepSettings listeningOnly() {
    return new SweepSettings(Look.LISTEN, calibration, scaleUncertainty, expected);
  }

  /** The same with a calibration. */
  public SweepSettings with(Calibration other) {
    return new SweepSettings(look, Optional.of(other), scaleUncertainty, expected);
  }

  /** The same for an uncalibrated jig whose parts are known better (or worse). */
  public SweepSettings withScaleUncertainty(double relative) {
    return new SweepSettings(look, calibration, relative, expected);
  }

  /** The same of a box of which it is known what it may read at DC. */
  public SweepSettings expecting(PossibleResistance box) {
    return new SweepSettings(look, calibration, scaleUncertainty, Optional.of(box));
  }

  /** The relative standard uncertainty of the scale before a calibration is applied. */
  double nominalUncertainty() {
    return calibration.isPresent() ? SCALE_UNCERTAINTY : scaleUncertainty;
  }
}
