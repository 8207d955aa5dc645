package conewise.analysis.model;

import static conewise.analysis.model.MovingPart.NONE;

import conewise.analysis.model.Network.Resistor;
import org.apache.commons.math3.complex.Complex;

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
  private final Network network;
  private final int loops;
  private final PartValues parts;
  private final ComplexSystem system;
  private final ComplexArray solution;
  private final NetworkSlopes slopes;
  private double resistanceOhm;
  private double reactanceOhm;

  NetworkSolver(Network network) {
    this.network = network;
    loops = network.loops();
    parts = new PartValues(network);
    int unknowns = loops + network.spaces().size();
    system = new ComplexSystem(unknowns);
    solution = new ComplexArray(unknowns);
    slopes = new NetworkSlopes(network, parts, solution);
  }

  /** Takes other values of the quantities, in the network's order and in their units. */
  public void set(double[] values) {
    parts.set(values);
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
    parts.evaluate(frequencyHz);
    int unknowns = loops + (frequencyHz == 0 ? 0 : network.spaces().size());
    system.clear(unknowns);
    for (int m = 0; m < network.motors().size(); m++) {
      addMotor(network.motors().get(m), m);
    }
    for (Resistor resistor : network.resistors()) {
      addResistor(parts.element[resistor.ohm()], resistor.current());
    }
    if (frequencyHz > 0) {
      addAir();
    }
    system.add(0, unknowns, 1, 0);
    system.solve();
    read(unknowns);
  }

  private void addMotor(MotorPart motor, int m) {
    double ohm = parts.element[motor.resistance()];
    double alone = 1 - parts.element[motor.coupling()];
    double coupled = parts.element[motor.coupling()];
    double force = parts.element[motor.force()];
    double re = parts.inductive.re[m];
    double im = parts.inductive.im[m];
    double motionRe = coupled * re + force * force * parts.admittance.re[motor.opening()];
    double motionIm = coupled * im + force * force * parts.admittance.im[motor.opening()];
    LoopVector linked = motor.linked();
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        double both = linked.at(i) * linked.at(j);
        double squared = alone * motor.squared().at(i, j);
        system.add(
            i,
            j,
            ohm * motor.resistive().at(i, j) + re * squared + motionRe * both,
            im * squared + motionIm * both);
      }
    }
    if (parts.angular > 0) {
      MovingPart cone = network.moving().get(motor.opening());
      addForce(motor, cone.behind(), force);
      addForce(motor, cone.before(), -force);
    }
  }

  private void addForce(MotorPart motor, int space, double force) {
    if (space == NONE) {
      return;
    }
    double re = force * parts.admittance.re[motor.opening()];
    double im = force * parts.admittance.im[motor.opening()];
    for (int i = 0; i < loops; i++) {
      system.add(i, loops + space, re * motor.linked().at(i), im * motor.linked().at(i));
      system.add(loops + space, i, re * motor.linked().at(i), im * motor.linked().at(i));
    }
  }

  private void addResistor(double ohm, LoopVector current) {
    for (int i = 0; i < loops; i++) {
      for (int j = 0; j < loops; j++) {
        system.add(i, j, ohm * current.at(i) * current.at(j), 0);
      }
    }
  }

  private void addAir() {
    for (int s = 0; s < network.spaces().size(); s++) {
      system.add(loops + s, loops + s, parts.air.re[s], parts.air.im[s]);
    }
    for (int o = 0; o < network.moving().size(); o++) {
      MovingPart part = network.moving().get(o);
      double re = parts.admittance.re[o];
      double im = parts.admittance.im[o];
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
    slopes.evaluate(slopeRe, slopeIm);
  }

  /**
   * What flows through an opening by the last solution, in m3/s for each volt at the terminals,
   * counted from the space behind it to the space before it.
   *
   * @param opening its index among the box's openings
   */
  Complex flowPerVolt(int opening) {
    ComplexArray flows = slopes.flows();
    return new Complex(flows.re[opening], flows.im[opening])
        .divide(new Complex(resistanceOhm, reactanceOhm));
  }

  /**
   * After {@link #slopes}: how the impedance goes with a common relative change of every driver's
   * spring, real part.
   */
  public double springSlopeRe() {
    return slopes.springRe();
  }

  /** The imaginary part of the same. */
  public double springSlopeIm() {
    return slopes.springIm();
  }

  /** The same for the inductive impedance of every voice coil, real part. */
  public double coilSlopeRe() {
    return slopes.coilRe();
  }

  /** The imaginary part of the same. */
  public double coilSlopeIm() {
    return slopes.coilIm();
  }
}
