package conewise.simulator.dynamics;

import java.util.List;

/**
 * A linear system from tick to tick: x[k+1] = A x[k] + B u[k], y[k] = C x[k] + D u, u[k] being held
 * from tick k to k + 1. It is all that another program needs to run the same system.
 *
 * <p>The arrays are shared, not copied: treat them as read-only.
 *
 * @param tickSeconds length of a tick
 * @param a states x states
 * @param b states x inputs
 * @param c outputs x states
 * @param d outputs x inputs
 * @param initial the state at tick 0
 * @param states names of the states
 * @param inputs names of the inputs
 * @param outputs names of the outputs
 */
@SuppressWarnings("ArrayRecordComponent") // matrices are what the record is for; never compared
public record DiscreteModel(
    double tickSeconds,
    double[][] a,
    double[][] b,
    double[][] c,
    double[][] d,
    double[] initial,
    List<String> states,
    List<String> inputs,
    List<String> outputs) {

  /** Checks that the shapes agree. */
  public DiscreteModel {
    Limits.requirePositive("tick", tickSeconds, "s");
    Shapes.check("A", a, states.size(), states.size());
    Shapes.check("B", b, states.size(), inputs.size());
    Shapes.check("C", c, outputs.size(), states.size());
    Shapes.check("D", d, outputs.size(), inputs.size());
    Shapes.check("initial", new double[][] {initial}, 1, states.size());
    states = List.copyOf(states);
    inputs = List.copyOf(inputs);
    outputs = List.copyOf(outputs);
  }

  /** Index of an output by name; -1 if there is none. */
  public int output(String name) {
    return outputs.indexOf(name);
  }

  /** Index of an input by name; -1 if there is none. */
  public int input(String name) {
    return inputs.indexOf(name);
  }

  /** A stepper that starts at the initial state. */
  public Stepper stepper() {
    return new Stepper(this);
  }
}
