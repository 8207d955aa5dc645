package conewise.simulator.dynamics;

/**
 * Steps a discrete model without allocating. The model may be exchanged between steps for another
 * with the same states (a contact that jumps). Not safe for use by several threads.
 */
public final class Stepper {
  private DiscreteModel model;
  private Columns columns;
  private double[] state;
  private double[] next;

  /** The matrices of a model by columns, ready to be stepped with. */
  public static final class Columns {
    private final DiscreteModel model;
    private final double[][] a;
    private final double[][] b;

    /** Lays out a model for stepping. */
    public Columns(DiscreteModel model) {
      this.model = model;
      this.a = transposed(model.a(), model.states().size());
      this.b = transposed(model.b(), model.inputs().size());
    }

    /** The model laid out. */
    public DiscreteModel model() {
      return model;
    }

    private static double[][] transposed(double[][] matrix, int columns) {
      double[][] result = new double[columns][matrix.length];
      for (int row = 0; row < matrix.length; row++) {
        for (int col = 0; col < columns; col++) {
          result[col][row] = matrix[row][col];
        }
      }
      return result;
    }
  }

  Stepper(DiscreteModel model) {
    use(new Columns(model));
    state = model.initial().clone();
    next = new double[state.length];
  }

  /** Exchanges the model from now on; the state is kept. */
  public void use(Columns other) {
    this.columns = other;
    this.model = other.model;
  }

  /** Advances one tick with the inputs held. */
  public void step(double[] inputs) {
    peek(inputs);
    double[] old = state;
    state = next;
    next = old;
  }

  /** Takes the last step back; valid once, right after {@link #step(double[])}. */
  public void back() {
    double[] taken = state;
    state = next;
    next = taken;
  }

  /** Computes where a tick would lead without going there. */
  private void peek(double[] inputs) {
    double[] sum = next;
    java.util.Arrays.fill(sum, 0);
    for (int col = 0; col < state.length; col++) {
      add(sum, columns.a[col], state[col]);
    }
    for (int col = 0; col < inputs.length; col++) {
      if (inputs[col] != 0) {
        add(sum, columns.b[col], inputs[col]);
      }
    }
  }

  /** An output as it would be after a tick with these inputs held. */
  public double outputAfter(int output, double[] inputs) {
    peek(inputs);
    return read(output, next, inputs);
  }

  /** An output now, with the inputs given. */
  public double output(int output, double[] inputs) {
    return read(output, state, inputs);
  }

  private double read(int output, double[] at, double[] inputs) {
    double[] c = model.c()[output];
    double[] d = model.d()[output];
    double sum = 0;
    for (int k = 0; k < c.length; k++) {
      sum += c[k] * at[k];
    }
    for (int k = 0; k < d.length; k++) {
      sum += d[k] * inputs[k];
    }
    return sum;
  }

  /** The state now; a copy. */
  public double[] state() {
    return state.clone();
  }

  private static void add(double[] sum, double[] column, double factor) {
    for (int row = 0; row < sum.length; row++) {
      sum[row] += factor * column[row];
    }
  }
}
