package conewise.analysis.model;

import static conewise.analysis.model.MovingPart.NONE;

import conewise.analysis.model.Network.Resistor;

/**
 * Solves a {@link Network} at one frequency after the other, and gives the slopes of its impedance
 * by every quantity from the same solution. Holds the last solution; not safe for threads.
 *
 * <p>Unknown are the loop currents i and the spaces' pressures p, at one ampere through the
 * terminals. An opening of impedance z lets q = (b i + p behind - p before) / z flow, b being the
 * force factor over the area; then
 *
 * <pre>loops:   Zc i + b q = 0 (the first: = Z)        spaces: y p + q out = 0
 * </pre>
 *
 * The equations are symmetric and stationary in i, q and p, so a change of any element changes Z by
 * dZ = i dZc i + 2 db q i - dz q^2 + dy p^2 (Tellegen 1952; Director and Rohrer, IEEE Trans.
 * Circuit Theory CT-16, 1969, adjoint network): one solution, all slopes.
 */
public final class NetworkSolver {
  private static final double LN_10 = Math.log(10);

  private final Network network;
  private final int loops;
  private final ComplexSystem system;
  private final ComplexArray solution;
  private final double[] element;

  /** For each opening its admittance and its flow, for each space its admittance. */
  private final ComplexArray admittance;

  private final ComplexArray flow;
  private final ComplexArray air;

  /** For each motor the inductive impedance of one turn. */
  private final ComplexArray inductive;

  private final ComplexArray slope;
  private double angular;
  private double resistanceOhm;
  private double reactanceOhm;

  NetworkSolver(Network network) {
    this.network = network;
    loops = network.loops();
    int unknowns = loops + network.spaces().size();
    system = new ComplexSystem(unknowns);
    solution = new ComplexArray(unknowns);
    element = new double[network.elements().count()];
    admittance = new ComplexArray(network.moving().size());
    flow = new ComplexArray(network.moving().size());
    air = new ComplexArray(network.spaces().size());
    inductive = new ComplexArray(network.motors().size());
    slope = new ComplexArray(element.length);
  }

  /** Takes other values of the quantities, in the network's order and in their units. */
  public void set(double[] values) {
    network.elements().evaluate(values, element);
  }

  /** The real part of the last solution's impedance. */
  public double resistanceOhm() {
    return resistanceOhm;
  }

  /** The imaginary part of the last solution's impedance. */
  public double reactanceOhm() {
    return reactanceOhm;
  }

  /**
   * Solves at a frequency.
   *
   * @param frequencyHz at least 0; at 0 the cones rest and the resistances alone remain
   */
  public void solve(double frequencyHz) {
    if (!(frequencyHz >= 0) || Double.isInfinite(frequencyHz)) {
      throw new IllegalArgumentException(
          "the frequency is " + frequencyHz + " Hz; it must be finite and not negative");
    }
    angular = 2 * Math.PI * frequencyHz;
    evaluateParts();
    int unknowns = loops + (angular == 0 ? 0 : network.spaces().size());
    system.clear(unknowns);
    for (int m = 0; m < network.motors().size(); m++) {
      addMotor(network.motors().get(m), m);
    }
    for (Resistor resistor : network.resistors()) {
      addProduct(element[resistor.ohm()], 0, resistor.shares());
    }
    if (angular > 0) {
      addAir();
    }
    system.add(0, unknowns, 1, 0);
    system.solve();
    read(unknowns);
  }

  private void evaluateParts() {
    for (int m = 0; m < network.motors().size(); m++) {
      MotorPart motor = network.motors().get(m);
      double n = element[motor.exponent()];
      double lossy = element[motor.lossy()];
      double modulus = lossy == 0 || angular == 0 ? 0 : lossy * Math.pow(angular, n);
      inductive.set(
          m,
          modulus * Math.cos(n * Math.PI / 2),
          modulus * Math.sin(n * Math.PI / 2) + angular * element[motor.henry()]);
    }
    for (int o = 0; o < network.moving().size(); o++) {
      if (angular == 0) {
        admittance.set(o, 0, 0);
        continue;
      }
      MovingPart part = network.moving().get(o);
      double re = part.loss() == NONE ? 0 : element[part.loss()];
      double im = angular * (mass(part.mass()) + mass(part.addedMass()));
      if (part.compliance() != NONE) {
        re += springRe(part);
        im += springIm(part);
      }
      admittance.setReciprocal(o, re, im);
    }
    for (int s = 0; s < network.spaces().size(); s++) {
      Network.Air space = network.spaces().get(s);
      double re = space.absorption() == NONE ? 0 : element[space.absorption()];
      air.setReciprocal(s, re, -1 / (angular * element[space.compliance()]));
    }
  }

  private double mass(int index) {
    return index == NONE ? 0 : element[index];
  }

  // A compliance with creep: C (1 - creep log10(j w / reference)) = C (a + j b).

  private double creepRe(MovingPart part) {
    return part.creep() == NONE
        ? 1
        : 1 - element[part.creep()] * Math.log(angular / part.creepReference()) / LN_10;
  }

  private double creepIm(MovingPart part) {
    return part.creep() == NONE ? 0 : -element[part.creep()] * Math.PI / 2 / LN_10;
  }

  private double springRe(MovingPart part) {
    double b = creepIm(part);
    if (b == 0) {
      return 0;
    }
    double a = creepRe(part);
    return -b / ((a * a + b * b) * angular * element[part.compliance()]);
  }

  private double springIm(MovingPart part) {
    double a = creepRe(part);
    double b = creepIm(part);
    return -a / ((a * a + b * b) * angular * element[part.compliance()]);
  }

  private void addMotor(MotorPart motor, int m) {
    double ohm = element[motor.resistance()];
    double alone = 1 - element[motor.coupling()];
    double coupled = element[motor.coupling()];
    double force = element[motor.force()];
    double re = inductive.re[m];
    double im = inductive.im[m];
    double motionRe = coupled * re + force * force * admittance.re[motor.opening()];
    double motionIm = coupled * im + force * force * admittance.im[motor.opening()];
    double[] linked = motor.linked();
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        double both = linked[i] * linked[j];
        double squared = alone * motor.squared()[i][j];
        system.add(
            i,
            j,
            ohm * motor.resistive()[i][j] + re * squared + motionRe * both,
            im * squared + motionIm * both);
      }
    }
    if (angular > 0) {
      MovingPart cone = network.moving().get(motor.opening());
      addForce(motor, cone.behind(), force);
      addForce(motor, cone.before(), -force);
    }
  }

  private void addForce(MotorPart motor, int space, double force) {
    if (space == NONE) {
      return;
    }
    double re = force * admittance.re[motor.opening()];
    double im = force * admittance.im[motor.opening()];
    for (int i = 0; i < loops; i++) {
      system.add(i, loops + space, re * motor.linked()[i], im * motor.linked()[i]);
      system.add(loops + space, i, re * motor.linked()[i], im * motor.linked()[i]);
    }
  }

  private void addProduct(double re, double im, double[] shares) {
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        system.add(i, j, re * shares[i] * shares[j], im * shares[i] * shares[j]);
      }
    }
  }

  private void addAir() {
    for (int s = 0; s < network.spaces().size(); s++) {
      system.add(loops + s, loops + s, air.re[s], air.im[s]);
    }
    for (int o = 0; o < network.moving().size(); o++) {
      MovingPart part = network.moving().get(o);
      double re = admittance.re[o];
      double im = admittance.im[o];
      if (part.behind() != NONE) {
        system.add(loops + part.behind(), loops + part.behind(), re, im);
      }
      if (part.before() != NONE) {
        system.add(loops + part.before(), loops + part.before(), re, im);
      }
      if (part.behind() != NONE && part.before() != NONE) {
        system.add(loops + part.behind(), loops + part.before(), -re, -im);
        system.add(loops + part.before(), loops + part.behind(), -re, -im);
      }
    }
  }

  /** The system was solved at one volt: scales it to one ampere. */
  private void read(int unknowns) {
    double a = system.real(0);
    double b = system.imaginary(0);
    double square = a * a + b * b;
    resistanceOhm = a / square;
    reactanceOhm = -b / square;
    java.util.Arrays.fill(solution.re, 0);
    java.util.Arrays.fill(solution.im, 0);
    for (int i = 0; i < unknowns; i++) {
      double re = system.real(i);
      double im = system.imaginary(i);
      solution.set(
          i, re * resistanceOhm - im * reactanceOhm, re * reactanceOhm + im * resistanceOhm);
    }
  }

  /**
   * The slopes of the last solution's impedance by the coordinate of each quantity: by its
   * logarithm where it {@link Quantity.Kind#isLogarithmic}, else by its value.
   *
   * @param slopeRe receives the slopes of the resistance, in the network's order of quantities
   * @param slopeIm receives those of the reactance
   */
  public void slopes(double[] slopeRe, double[] slopeIm) {
    java.util.Arrays.fill(slope.re, 0);
    java.util.Arrays.fill(slope.im, 0);
    for (int o = 0; o < network.moving().size(); o++) {
      flow.set(o, 0, 0);
    }
    for (int m = 0; m < network.motors().size(); m++) {
      drive(network.motors().get(m));
    }
    for (int o = 0; o < network.moving().size() && angular > 0; o++) {
      move(o);
    }
    for (int m = 0; m < network.motors().size(); m++) {
      slopesOfMotor(network.motors().get(m), m);
    }
    for (int o = 0; o < network.moving().size() && angular > 0; o++) {
      slopesOfOpening(network.moving().get(o), o);
    }
    for (int s = 0; s < network.spaces().size() && angular > 0; s++) {
      slopesOfSpace(network.spaces().get(s), s);
    }
    for (Resistor resistor : network.resistors()) {
      double re = sum(resistor.shares(), solution.re);
      double im = sum(resistor.shares(), solution.im);
      double ohm = element[resistor.ohm()];
      slope.set(resistor.ohm(), ohm * (re * re - im * im), ohm * 2 * re * im);
    }
    network.elements().chain(slope.re, slopeRe);
    network.elements().chain(slope.im, slopeIm);
  }

  private double sum(double[] shares, double[] of) {
    double sum = 0;
    for (int i = 0; i < loops; i++) {
      sum += shares[i] * of[i];
    }
    return sum;
  }

  /** The pressure of a motor's current on its cone. */
  private void drive(MotorPart motor) {
    double force = element[motor.force()];
    flow.set(
        motor.opening(),
        force * sum(motor.linked(), solution.re),
        force * sum(motor.linked(), solution.im));
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
        re * admittance.re[o] - im * admittance.im[o],
        re * admittance.im[o] + im * admittance.re[o]);
  }

  private void slopesOfMotor(MotorPart motor, int m) {
    double linkedRe = sum(motor.linked(), solution.re);
    double linkedIm = sum(motor.linked(), solution.im);
    double bothRe = linkedRe * linkedRe - linkedIm * linkedIm;
    double bothIm = 2 * linkedRe * linkedIm;
    double ohm = element[motor.resistance()];
    slope.set(motor.resistance(), ohm * formRe(motor.resistive()), ohm * formIm(motor.resistive()));
    double qRe = angular == 0 ? 0 : flow.re[motor.opening()];
    double qIm = angular == 0 ? 0 : flow.im[motor.opening()];
    double force = element[motor.force()];
    slope.set(
        motor.force(),
        2 * force * (linkedRe * qRe - linkedIm * qIm),
        2 * force * (linkedRe * qIm + linkedIm * qRe));
    double coupling = element[motor.coupling()];
    double aloneRe = formRe(motor.squared());
    double aloneIm = formIm(motor.squared());
    double currentRe = (1 - coupling) * aloneRe + coupling * bothRe;
    double currentIm = (1 - coupling) * aloneIm + coupling * bothIm;
    double plain = angular * element[motor.henry()];
    slope.set(motor.henry(), -plain * currentIm, plain * currentRe);
    double lossyRe = inductive.re[m];
    double lossyIm = inductive.im[m] - plain;
    double byLossyRe = lossyRe * currentRe - lossyIm * currentIm;
    double byLossyIm = lossyRe * currentIm + lossyIm * currentRe;
    slope.set(motor.lossy(), byLossyRe, byLossyIm);
    double log = angular == 0 ? 0 : Math.log(angular);
    slope.set(
        motor.exponent(),
        byLossyRe * log - byLossyIm * Math.PI / 2,
        byLossyRe * Math.PI / 2 + byLossyIm * log);
    double apartRe = bothRe - aloneRe;
    double apartIm = bothIm - aloneIm;
    slope.set(
        motor.coupling(),
        inductive.re[m] * apartRe - inductive.im[m] * apartIm,
        inductive.re[m] * apartIm + inductive.im[m] * apartRe);
  }

  /** The real part of i M i for the loop currents i. */
  private double formRe(double[][] matrix) {
    double sum = 0;
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        sum += matrix[i][j] * (solution.re[i] * solution.re[j] - solution.im[i] * solution.im[j]);
      }
    }
    return sum;
  }

  private double formIm(double[][] matrix) {
    double sum = 0;
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        sum += matrix[i][j] * (solution.re[i] * solution.im[j] + solution.im[i] * solution.re[j]);
      }
    }
    return sum;
  }

  private void slopesOfOpening(MovingPart part, int o) {
    double re = flow.re[o] * flow.re[o] - flow.im[o] * flow.im[o];
    double im = 2 * flow.re[o] * flow.im[o];
    if (part.mass() != NONE) {
      double x = angular * element[part.mass()];
      slope.set(part.mass(), x * im, -x * re);
    }
    if (part.loss() != NONE) {
      slope.set(part.loss(), -element[part.loss()] * re, -element[part.loss()] * im);
    }
    if (part.compliance() != NONE) {
      double springRe = springRe(part);
      double springIm = springIm(part);
      slope.set(part.compliance(), springRe * re - springIm * im, springRe * im + springIm * re);
      if (part.creep() != NONE) {
        // The spring is 1/(j w C (a + j b)); its slope by creep is -spring (a' + j b')/(a + j b).
        double a = creepRe(part);
        double b = creepIm(part);
        double square = a * a + b * b;
        double slopeA = -Math.log(angular / part.creepReference()) / LN_10;
        double slopeB = -Math.PI / 2 / LN_10;
        double ratioRe = (slopeA * a + slopeB * b) / square;
        double ratioIm = (slopeB * a - slopeA * b) / square;
        double byRe = slope.re[part.compliance()];
        double byIm = slope.im[part.compliance()];
        slope.set(part.creep(), byRe * ratioRe - byIm * ratioIm, byRe * ratioIm + byIm * ratioRe);
      }
    }
  }

  private void slopesOfSpace(Network.Air space, int s) {
    double pRe = solution.re[loops + s];
    double pIm = solution.im[loops + s];
    // Flow into the air: w = y p; dy p^2 = -w^2 d(1/y), 1/y = R + 1/(j w C).
    double wRe = pRe * air.re[s] - pIm * air.im[s];
    double wIm = pRe * air.im[s] + pIm * air.re[s];
    double re = wRe * wRe - wIm * wIm;
    double im = 2 * wRe * wIm;
    double spring = -1 / (angular * element[space.compliance()]);
    slope.set(space.compliance(), -spring * im, spring * re);
    if (space.absorption() != NONE) {
      double ohm = element[space.absorption()];
      slope.set(space.absorption(), -ohm * re, -ohm * im);
    }
  }
}
