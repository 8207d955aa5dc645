package conewise.analysis.model;

import static conewise.analysis.model.MovingPart.NONE;

import conewise.analysis.model.Network.Resistor;

/**
 * The slopes of the impedance by every quantity, from one solution: see {@link NetworkSolver} for
 * the relation.
 */
final class NetworkSlopes {
  private final Network network;
  private final PartValues parts;
  private final ComplexArray solution;
  private final int loops;
  private final ComplexArray flow;
  private final ComplexArray slope;

  /** Reads what the solver writes into the parts' values and the solution. */
  NetworkSlopes(Network network, PartValues parts, ComplexArray solution) {
    this.network = network;
    this.parts = parts;
    this.solution = solution;
    loops = network.loops();
    flow = new ComplexArray(network.moving().size());
    slope = new ComplexArray(network.elements().count());
  }

  void evaluate(double[] slopeRe, double[] slopeIm) {
    boolean moves = parts.angular > 0;
    java.util.Arrays.fill(slope.re, 0);
    java.util.Arrays.fill(slope.im, 0);
    flows();
    for (int m = 0; m < network.motors().size(); m++) {
      slopesOfMotor(network.motors().get(m), m);
    }
    for (int o = 0; o < network.moving().size() && moves; o++) {
      slopesOfOpening(network.moving().get(o), o);
    }
    for (int s = 0; s < network.spaces().size() && moves; s++) {
      slopesOfSpace(network.spaces().get(s), s);
    }
    for (Resistor resistor : network.resistors()) {
      double re = resistor.current().sum(solution.re);
      double im = resistor.current().sum(solution.im);
      double ohm = parts.element[resistor.ohm()];
      slope.set(resistor.ohm(), ohm * (re * re - im * im), ohm * 2 * re * im);
    }
    network.elements().chain(slope.re, slopeRe);
    network.elements().chain(slope.im, slopeIm);
  }

  /** What flows through each opening, from behind to before it, in m3/s at one ampere. */
  ComplexArray flows() {
    for (int o = 0; o < network.moving().size(); o++) {
      flow.set(o, 0, 0);
    }
    for (int m = 0; m < network.motors().size(); m++) {
      drive(network.motors().get(m));
    }
    for (int o = 0; o < network.moving().size(); o++) {
      move(o);
    }
    return flow;
  }

  /** The pressure of a motor's current on its cone. */
  private void drive(MotorPart motor) {
    double force = parts.element[motor.force()];
    flow.set(
        motor.opening(),
        force * motor.linked().sum(solution.re),
        force * motor.linked().sum(solution.im));
  }

  /** Adds the spaces' pressures and turns the whole into a flow. */
  private void move(int o) {
    MovingPart part = network.moving().get(o);
    double re = flow.re[o];
    double im = flow.im[o];
    if (part.behind() != NONE) {
      re += solution.re[loops + part.behind()];
      im += solution.im[loops + part.behind()];
    }
    if (part.before() != NONE) {
      re -= solution.re[loops + part.before()];
      im -= solution.im[loops + part.before()];
    }
    flow.set(
        o,
        re * parts.admittance.re[o] - im * parts.admittance.im[o],
        re * parts.admittance.im[o] + im * parts.admittance.re[o]);
  }

  private void slopesOfMotor(MotorPart motor, int m) {
    double linkedRe = motor.linked().sum(solution.re);
    double linkedIm = motor.linked().sum(solution.im);
    double bothRe = linkedRe * linkedRe - linkedIm * linkedIm;
    double bothIm = 2 * linkedRe * linkedIm;
    double ohm = parts.element[motor.resistance()];
    slope.set(
        motor.resistance(),
        ohm * motor.resistive().real(solution),
        ohm * motor.resistive().imaginary(solution));
    double qRe = flow.re[motor.opening()];
    double qIm = flow.im[motor.opening()];
    double force = parts.element[motor.force()];
    slope.set(
        motor.force(),
        2 * force * (linkedRe * qRe - linkedIm * qIm),
        2 * force * (linkedRe * qIm + linkedIm * qRe));
    double coupling = parts.element[motor.coupling()];
    double aloneRe = motor.squared().real(solution);
    double aloneIm = motor.squared().imaginary(solution);
    double currentRe = (1 - coupling) * aloneRe + coupling * bothRe;
    double currentIm = (1 - coupling) * aloneIm + coupling * bothIm;
    double plain = parts.angular * parts.element[motor.henry()];
    slope.set(motor.henry(), -plain * currentIm, plain * currentRe);
    double lossyRe = parts.inductive.re[m];
    double lossyIm = parts.inductive.im[m] - plain;
    double byLossyRe = lossyRe * currentRe - lossyIm * currentIm;
    double byLossyIm = lossyRe * currentIm + lossyIm * currentRe;
    slope.set(motor.lossy(), byLossyRe, byLossyIm);
    double log = parts.angular == 0 ? 0 : Math.log(parts.angular);
    slope.set(
        motor.exponent(),
        byLossyRe * log - byLossyIm * Math.PI / 2,
        byLossyRe * Math.PI / 2 + byLossyIm * log);
    double apartRe = bothRe - aloneRe;
    double apartIm = bothIm - aloneIm;
    slope.set(
        motor.coupling(),
        parts.inductive.re[m] * apartRe - parts.inductive.im[m] * apartIm,
        parts.inductive.re[m] * apartIm + parts.inductive.im[m] * apartRe);
  }

  private void slopesOfOpening(MovingPart part, int o) {
    double re = flow.re[o] * flow.re[o] - flow.im[o] * flow.im[o];
    double im = 2 * flow.re[o] * flow.im[o];
    if (part.mass() != NONE) {
      slopeOfMass(part.mass(), re, im);
    }
    if (part.addedMass() != NONE) {
      slopeOfMass(part.addedMass(), re, im);
    }
    if (part.loss() != NONE) {
      slope.set(part.loss(), -parts.element[part.loss()] * re, -parts.element[part.loss()] * im);
    }
    if (part.compliance() != NONE) {
      double springRe = parts.springRe(part);
      double springIm = parts.springIm(part);
      slope.set(part.compliance(), springRe * re - springIm * im, springRe * im + springIm * re);
      if (part.creep() != NONE) {
        slopeOfCreep(part);
      }
    }
  }

  private void slopeOfMass(int mass, double re, double im) {
    double x = parts.angular * parts.element[mass];
    slope.set(mass, x * im, -x * re);
  }

  /**
   * The spring's slope by creep is spring (2 b b' / (1 + b^2) - (a' + j b') / (a + j b)); by the
   * logarithm of the reference it is -spring a'' / (a + j b) with a'' = creep / ln 10.
   */
  private void slopeOfCreep(MovingPart part) {
    double a = parts.creepRe(part);
    double b = parts.creepIm(part);
    double square = a * a + b * b;
    double slopeA = parts.creepSlopeRe(part);
    double slopeB = PartValues.CREEP_SLOPE_IM;
    double ratioRe = 2 * b * slopeB / (1 + b * b) - (slopeA * a + slopeB * b) / square;
    double ratioIm = -(slopeB * a - slopeA * b) / square;
    // By the logarithm of the compliance the spring's slope is -spring.
    double springRe = -slope.re[part.compliance()];
    double springIm = -slope.im[part.compliance()];
    slope.set(
        part.creep(),
        springRe * ratioRe - springIm * ratioIm,
        springRe * ratioIm + springIm * ratioRe);
    double drift = -parts.element[part.creep()] / PartValues.LN_10 / square;
    slope.set(
        part.reference(),
        drift * (springRe * a + springIm * b),
        drift * (springIm * a - springRe * b));
  }

  private void slopesOfSpace(Network.Air space, int s) {
    double pRe = solution.re[loops + s];
    double pIm = solution.im[loops + s];
    // Flow into the air: w = y p; dy p^2 = -w^2 d(1/y), 1/y = R + 1/(j w C).
    double wRe = pRe * parts.air.re[s] - pIm * parts.air.im[s];
    double wIm = pRe * parts.air.im[s] + pIm * parts.air.re[s];
    double re = wRe * wRe - wIm * wIm;
    double im = 2 * wRe * wIm;
    double spring = -1 / (parts.angular * parts.element[space.compliance()]);
    slope.set(space.compliance(), -spring * im, spring * re);
    if (space.absorption() != NONE) {
      double ohm = parts.element[space.absorption()];
      slope.set(space.absorption(), -ohm * re, -ohm * im);
    }
  }

  double springRe() {
    double sum = 0;
    for (MotorPart motor : network.motors()) {
      sum -= slope.re[network.moving().get(motor.opening()).compliance()];
    }
    return sum;
  }

  double springIm() {
    double sum = 0;
    for (MotorPart motor : network.motors()) {
      sum -= slope.im[network.moving().get(motor.opening()).compliance()];
    }
    return sum;
  }

  double coilRe() {
    double sum = 0;
    for (MotorPart motor : network.motors()) {
      sum += slope.re[motor.henry()] + slope.re[motor.lossy()];
    }
    return sum;
  }

  double coilIm() {
    double sum = 0;
    for (MotorPart motor : network.motors()) {
      sum += slope.im[motor.henry()] + slope.im[motor.lossy()];
    }
    return sum;
  }
}
