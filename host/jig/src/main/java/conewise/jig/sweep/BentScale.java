package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.Optional;

/**
 * What a converter's bent scale leaves open after a calibration. Its slope is not quite the same
 * for small signals as for large ones, so the gains that the known resistor gave fit another box
 * the less, the further its impedance is from the resistor's: no number of periods takes that away.
 */
final class BentScale {

  /**
   * Relative standard uncertainty for each factor of e between box and resistor. A scale with a
   * smooth bend of half a step (data sheet of the ATmega328P, ADC characteristics: integral
   * nonlinearity, typical) on twelve virtual jigs, each with a bend of its own: 0.33 % at 1 ohm,
   * 0.26 % at 2, 0.15 % at 4, 0.05 % at 8, 0.07 % at 16, 0.14 % at 25, 0.25 % at 50, 0.30 % at 100,
   * for a resistor of 10 ohm.
   */
  static final double PER_FACTOR_E = 0.0015;

  private BentScale() {}

  /** The curve with this among each point's own uncertainty; steady current has it already. */
  static ImpedanceCurve into(ImpedanceCurve curve, double standardOhm) {
    return new ImpedanceCurve(
        curve.points().stream().map(point -> into(point, standardOhm)).toList(),
        curve.scaleUncertainty());
  }

  private static ImpedancePoint into(ImpedancePoint point, double standardOhm) {
    double ohm = point.modulusOhm();
    if (point.frequencyHz() == 0 || ohm == 0 || point.uncertainty().isEmpty()) {
      return point;
    }
    ImpedanceUncertainty bent =
        ImpedanceUncertainty.circular(ohm * PER_FACTOR_E * Math.abs(Math.log(ohm / standardOhm)));
    return new ImpedancePoint(
        point.frequencyHz(),
        point.resistanceOhm(),
        point.reactanceOhm(),
        Optional.of(point.uncertainty().get().plus(bent)));
  }
}
