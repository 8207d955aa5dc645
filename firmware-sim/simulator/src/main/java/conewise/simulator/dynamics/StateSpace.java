package conewise.simulator.dynamics;

import java.util.List;

/**
 * A linear system in continuous time: x' = A x + B u, y = C x + D u.
 *
 * <p>The arrays are shared, not copied: treat them as read-only.
 *
 * @param a states x states
 * @param b states x inputs
 * @param c outputs x states
 * @param d outputs x inputs
 * @param states names of the states
 * @param inputs names of the inputs
 * @param outputs names of the outputs
 */
@SuppressWarnings("ArrayRecordComponent") // matrices are what the record is for; never compared
public record StateSpace(
    double[][] a,
    double[][] b,
    double[][] c,
    double[][] d,
    List<String> states,
    List<String> inputs,
    List<String> outputs) {

  /** Checks that the shapes agree. */
  public StateSpace {
    Shapes.check("A", a, states.size(), states.size());
    Shapes.check("B", b, states.size(), inputs.size());
    Shapes.check("C", c, outputs.size(), states.size());
    Shapes.check("D", d, outputs.size(), inputs.size());
    states = List.copyOf(states);
    inputs = List.copyOf(inputs);
    outputs = List.copyOf(outputs);
  }

  /**
   * The exact step from tick to tick for inputs that are constant during each tick (zero-order
   * hold): the exponential of the matrix (A B; 0 0) x tick holds both factors. C. F. Van Loan, IEEE
   * Trans. Automatic Control 23 (1978), 395.
   *
   * @param tickSeconds length of a tick, above 0
   * @throws IllegalArgumentException if the tick is not positive
   */
  public DiscreteModel hold(double tickSeconds) {
    Limits.requirePositive("tick", tickSeconds, "s");
    int n = states.size();
    int m = inputs.size();
    double[][] whole = new double[n + m][n + m];
    for (int row = 0; row < n; row++) {
      for (int col = 0; col < n + m; col++) {
        whole[row][col] = tickSeconds * (col < n ? a[row][col] : b[row][col - n]);
      }
    }
    double[][] step = MatrixExponential.of(whole);
    double[][] next = new double[n][n];
    double[][] drive = new double[n][m];
    for (int row = 0; row < n; row++) {
      System.arraycopy(step[row], 0, next[row], 0, n);
      System.arraycopy(step[row], n, drive[row], 0, m);
    }
    return new DiscreteModel(
        tickSeconds, next, drive, c, d, new double[n], states, inputs, outputs);
  }
}
