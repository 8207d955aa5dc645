package conewise.station.chart;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;

/**
 * How far modulus and phase of one point may be off, from the covariance of its parts (JCGM 100,
 * equation 13, with the partial derivatives of |Z| and arg Z).
 *
 * @param modulusOhm half width of the 95 % interval of |Z| in ohm (coverage factor 2)
 * @param phaseDegrees half width of the 95 % interval of the phase in degrees, at most 180
 */
record PolarSpread(double modulusOhm, double phaseDegrees) {
  private static final double COVERAGE = 2;

  /** No spread at all, for a point whose uncertainty is not known or whose modulus is zero. */
  static final PolarSpread NONE = new PolarSpread(0, 0);

  /**
   * The spread of a point of a curve.
   *
   * @param scaleUncertainty relative standard uncertainty of the curve's scale: it moves the
   *     modulus and leaves the phase
   */
  static PolarSpread of(ImpedancePoint point, double scaleUncertainty) {
    double size = point.modulusOhm();
    if (size == 0) {
      return NONE;
    }
    PolarSpread own = point.uncertainty().map(known -> of(point, size, known)).orElse(NONE);
    return new PolarSpread(
        Math.hypot(own.modulusOhm, COVERAGE * scaleUncertainty * size), own.phaseDegrees);
  }

  private static PolarSpread of(ImpedancePoint point, double size, ImpedanceUncertainty known) {
    double r = point.resistanceOhm() / size;
    double x = point.reactanceOhm() / size;
    double cross = 2 * r * x * known.covariance();
    double along = r * r * known.varianceResistance() + x * x * known.varianceReactance() + cross;
    double across = x * x * known.varianceResistance() + r * r * known.varianceReactance() - cross;
    double angle = Math.toDegrees(Math.sqrt(Math.max(0, across)) / size);
    return new PolarSpread(
        COVERAGE * Math.sqrt(Math.max(0, along)), Math.min(180, COVERAGE * angle));
  }
}
