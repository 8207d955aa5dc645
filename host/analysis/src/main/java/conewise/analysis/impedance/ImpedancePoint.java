package conewise.analysis.impedance;

import java.util.Optional;

/**
 * The impedance at one frequency: Z = R + jX.
 *
 * @param frequencyHz frequency in hertz, at least 0 (0 is a DC resistance and has reactance 0)
 * @param resistanceOhm real part in ohm, finite
 * @param reactanceOhm imaginary part in ohm, finite
 * @param uncertainty how well the two are known, when that is known
 */
public record ImpedancePoint(
    double frequencyHz,
    double resistanceOhm,
    double reactanceOhm,
    Optional<ImpedanceUncertainty> uncertainty) {

  public ImpedancePoint {
    requireFinite(frequencyHz, resistanceOhm, reactanceOhm, "ohm");
  }

  static void requireFinite(double frequencyHz, double real, double imaginary, String unit) {
    if (!(frequencyHz >= 0) || Double.isInfinite(frequencyHz)) {
      throw new IllegalArgumentException(
          "the frequency is " + frequencyHz + " Hz; it must be finite and not negative");
    }
    if (!Double.isFinite(real) || !Double.isFinite(imaginary)) {
      throw new IllegalArgumentException(
          "the value at "
              + frequencyHz
              + " Hz is "
              + real
              + " + j "
              + imaginary
              + " "
              + unit
              + "; both parts must be finite");
    }
  }

  /** |Z| in ohm. */
  public double modulusOhm() {
    return Math.hypot(resistanceOhm, reactanceOhm);
  }

  /**
   * One number for how well the point is known, in ohm: the root mean square of the two parts'
   * standard uncertainties; at 0 Hz that of the resistance, since there is no reactance.
   */
  public Optional<Double> standardUncertaintyOhm() {
    return uncertainty.map(
        known ->
            frequencyHz == 0
                ? Math.sqrt(known.varianceResistance())
                : known.standardUncertaintyOhm());
  }

  /** The angle of Z in degrees, -180 to 180; 0 where Z is 0. */
  public double phaseDegrees() {
    return Math.toDegrees(Math.atan2(reactanceOhm, resistanceOhm));
  }
}
