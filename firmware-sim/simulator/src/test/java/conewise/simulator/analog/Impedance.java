package conewise.simulator.analog;

import conewise.simulator.box.Box;
import conewise.simulator.dynamics.DiscreteModel;
import conewise.simulator.dynamics.Response;
import conewise.simulator.dynamics.StateSpace;
import org.apache.commons.math3.complex.Complex;

/** Impedance as the virtual jig's own equations have it: voltage over current. */
final class Impedance {
  private final StateSpace continuous;
  private final DiscreteModel sampled;

  Impedance(Box box) {
    this(box, JigImperfections.ideal());
  }

  Impedance(Box box, JigImperfections jig) {
    continuous = AnalogEquations.of(box, jig, jig.contact().ohm(), false).system();
    sampled = VirtualAnalog.model(box, jig);
  }

  /** From the differential equations themselves. */
  Complex at(double hz) {
    Complex[] response = Response.of(continuous, hz);
    return response[0].divide(response[1]);
  }

  /** From the step that the virtual jig takes, images of the held drive included. */
  Complex sampledAt(double hz) {
    Complex[] response = Response.of(sampled, hz);
    return response[0].divide(response[1]);
  }

  /** The frequency between two others where a value passes zero, by bisection. */
  static double zero(java.util.function.DoubleUnaryOperator value, double low, double high) {
    double sign = Math.signum(value.applyAsDouble(low));
    for (int k = 0; k < 100; k++) {
      double middle = 0.5 * (low + high);
      if (Math.signum(value.applyAsDouble(middle)) == sign) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return 0.5 * (low + high);
  }

  double reactance(double hz) {
    return at(hz).getImaginary();
  }
}
