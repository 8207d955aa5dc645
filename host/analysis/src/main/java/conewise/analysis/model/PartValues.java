package conewise.analysis.model;

import static conewise.analysis.model.MovingPart.NONE;

/** The values of a network's parts at one frequency: admittances of openings and air, coils. */
final class PartValues {
  static final double LN_10 = Math.log(10);
  static final double CREEP_SLOPE_IM = -Math.PI / 2 / LN_10;

  private final Network network;
  final double[] element;

  /** Of each opening: how much flows for each pascal across it. */
  final ComplexArray admittance;

  /** Of each space: how much flows into its air for each pascal. */
  final ComplexArray air;

  /** Of each motor: the inductive impedance of a coil of one turn. */
  final ComplexArray inductive;

  double angular;

  PartValues(Network network) {
    this.network = network;
    element = new double[network.elements().count()];
    admittance = new ComplexArray(network.moving().size());
    air = new ComplexArray(network.spaces().size());
    inductive = new ComplexArray(network.motors().size());
  }

  void set(double[] quantities) {
    network.elements().evaluate(quantities, element);
  }

  /** An element's value; 0 where there is none. */
  double value(int index) {
    return index == NONE ? 0 : element[index];
  }

  void evaluate(double frequencyHz) {
    angular = 2 * Math.PI * frequencyHz;
    for (int m = 0; m < network.motors().size(); m++) {
      evaluate(network.motors().get(m), m);
    }
    for (int o = 0; o < network.moving().size(); o++) {
      evaluate(network.moving().get(o), o);
    }
    for (int s = 0; s < network.spaces().size(); s++) {
      Network.Air space = network.spaces().get(s);
      air.setReciprocal(s, value(space.absorption()), -1 / (angular * element[space.compliance()]));
    }
  }

  private void evaluate(MotorPart motor, int m) {
    double n = element[motor.exponent()];
    double lossy = element[motor.lossy()];
    double modulus = lossy == 0 || angular == 0 ? 0 : lossy * Math.pow(angular, n);
    inductive.set(
        m,
        modulus * Math.cos(n * Math.PI / 2),
        modulus * Math.sin(n * Math.PI / 2) + angular * element[motor.henry()]);
  }

  private void evaluate(MovingPart part, int o) {
    if (angular == 0) {
      admittance.set(o, 0, 0);
      return;
    }
    double re = value(part.loss());
    double im = angular * (value(part.mass()) + value(part.addedMass()));
    if (part.compliance() != NONE) {
      re += springRe(part);
      im += springIm(part);
    }
    admittance.setReciprocal(o, re, im);
  }

  /**
   * The impedance of a spring, 1/(j w C). With creep C is C (a + j b) / (1 + b^2), a = 1 - creep
   * log10(w / reference), b = -creep (pi / 2) / ln 10; the last factor lets the reactance at the
   * reference be that of C itself.
   */
  double springRe(MovingPart part) {
    if (part.creep() == NONE) {
      return 0;
    }
    double a = creepRe(part);
    double b = creepIm(part);
    return -b * (1 + b * b) / ((a * a + b * b) * angular * element[part.compliance()]);
  }

  double springIm(MovingPart part) {
    double whole = -1 / (angular * element[part.compliance()]);
    if (part.creep() == NONE) {
      return whole;
    }
    double a = creepRe(part);
    double b = creepIm(part);
    return whole * a * (1 + b * b) / (a * a + b * b);
  }

  double creepRe(MovingPart part) {
    return 1 + element[part.creep()] * creepSlopeRe(part);
  }

  double creepIm(MovingPart part) {
    return element[part.creep()] * CREEP_SLOPE_IM;
  }

  double creepSlopeRe(MovingPart part) {
    return -Math.log(angular / (2 * Math.PI * element[part.reference()])) / LN_10;
  }
}
